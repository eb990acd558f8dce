"""Fixtures from a file, whichever kind it is."""

from collections.abc import Callable
from pathlib import Path

from cli.files.errors import InputError
from cli.files.fixtures_csv import find_fixtures_csv, rows_csv
from cli.files.fixtures_found import KINDS, FoundFixtures, ListFacts
from cli.files.fixtures_head import Row
from cli.files.fixtures_ics import find_fixtures_ics
from cli.files.fixtures_ods import find_fixtures_ods, rows_ods
from cli.files.fixtures_table import league_clubs
from cli.files.fixtures_xlsx import find_fixtures_xlsx, rows_xlsx
from cli.files.listed import Listed
from optimiser.domain.wording import counted

#: Endings of tables in plain text.
TEXTS = (".csv", ".tsv", ".txt")
READERS: dict[str, Callable[[Path, ListFacts], FoundFixtures]] = {
    **dict.fromkeys(TEXTS, find_fixtures_csv),
    ".ics": find_fixtures_ics,
    ".xlsx": find_fixtures_xlsx,
    ".ods": find_fixtures_ods,
}
TABLES: dict[str, Callable[[Path], list[Row]]] = {
    **dict.fromkeys(TEXTS, rows_csv),
    ".xlsx": rows_xlsx,
    ".ods": rows_ods,
}


def read_fixtures_file(path: Path) -> list[Listed]:
    """Return the fixtures of a .csv, .xlsx, .ods or .ics file, at least one.

    Raises
    ------
    InputError
        If the kind is another, the list is empty or anything in it cannot be used.
    """
    return list(find_fixtures(path, ListFacts()).listed)


def clubs_in(path: Path) -> tuple[str, ...]:
    """Return the clubs of a whole league's list, by name.

    Raises
    ------
    InputError
        If it is no table of who plays whom.
    """
    reader = TABLES.get(path.suffix.lower())
    if reader is None:
        must, got = "a league's list must be .csv, .xlsx or .ods", path.suffix or path.name
        raise InputError(path, "", must, got, "save it as CSV")
    return league_clubs(path, reader(path))


def find_fixtures(path: Path, asked: ListFacts) -> FoundFixtures:
    """Return the fixtures of a file, at least one, and what was left out of it."""
    reader = READERS.get(path.suffix.lower())
    if reader is None:
        raise InputError(
            path,
            "",
            "fixtures must come as .csv, .xlsx, .ods or .ics",
            path.suffix or ("a folder" if path.is_dir() else "a name without an ending"),
            "export them as CSV",
        )
    found = reader(path, asked)
    if not found.listed:
        got = _why_none(found)
        raise InputError(path, "", "must list at least one fixture", got, "add the matches")
    return found


def _why_none(found: FoundFixtures) -> str:
    """Say what a list without a match has instead."""
    reasons = dict.fromkeys(KINDS[item.kind][2] for item in found.left_out)
    many = counted(found.rows, found.unit)
    return f"{many} left out: {'; '.join(reasons)}" if reasons else "an empty list"
