"""Fixtures from a file, whichever kind it is."""

from pathlib import Path

from cli.files.errors import InputError
from cli.files.fixtures_csv import read_fixtures_csv
from cli.files.fixtures_ics import read_fixtures_ics
from cli.files.listed import Listed

READERS = {".csv": read_fixtures_csv, ".ics": read_fixtures_ics}


def read_fixtures_file(path: Path) -> list[Listed]:
    """Return the fixtures of a .csv or .ics file, at least one.

    Raises
    ------
    InputError
        If the kind is another, the list is empty or anything in it cannot be used.
    """
    reader = READERS.get(path.suffix.lower())
    if reader is None:
        raise InputError(
            path,
            "",
            "fixtures must come as .csv or .ics",
            path.suffix or "a name without an ending",
            "export them as CSV",
        )
    listed = reader(path)
    if not listed:
        raise InputError(
            path, "", "must list at least one fixture", "an empty list", "add the matches"
        )
    return listed
