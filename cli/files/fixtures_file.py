"""Fixtures from a file, whichever kind it is."""

from collections.abc import Callable
from pathlib import Path

from cli.files.errors import InputError
from cli.files.fixtures_csv import find_fixtures_csv
from cli.files.fixtures_found import Asked, Found
from cli.files.fixtures_ics import find_fixtures_ics
from cli.files.fixtures_xlsx import find_fixtures_xlsx
from cli.files.listed import Listed

READERS: dict[str, Callable[[Path, Asked], Found]] = {
    ".csv": find_fixtures_csv,
    ".ics": find_fixtures_ics,
    ".xlsx": find_fixtures_xlsx,
}


def read_fixtures_file(path: Path) -> list[Listed]:
    """Return the fixtures of a .csv, .xlsx or .ics file, at least one.

    Raises
    ------
    InputError
        If the kind is another, the list is empty or anything in it cannot be used.
    """
    return list(find_fixtures(path, Asked()).listed)


def find_fixtures(path: Path, asked: Asked) -> Found:
    """Return the fixtures of a file, at least one, and what was left out of it."""
    reader = READERS.get(path.suffix.lower())
    if reader is None:
        raise InputError(
            path,
            "",
            "fixtures must come as .csv, .xlsx or .ics",
            path.suffix or "a name without an ending",
            "export them as CSV",
        )
    found = reader(path, asked)
    if not found.listed:
        got = f"{len(found.left_out)} left out" if found.left_out else "an empty list"
        raise InputError(path, "", "must list at least one fixture", got, "add the matches")
    return found
