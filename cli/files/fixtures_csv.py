"""Fixtures from a CSV file."""

import csv
import re
from collections.abc import Iterator
from pathlib import Path

from pydantic import ValidationError

from cli.files.errors import InputError
from cli.files.known_keys import nearest
from cli.files.listed import Listed
from cli.files.read_text import read_text
from optimiser.domain.fixture import Fixture

COLUMNS = tuple(Fixture.model_fields)
NUMBERS = ("minutes", "travel_hours")
DATE = re.compile(r"\d{4}-\d{2}-\d{2}")
TIME = re.compile(r"\d{1,2}:\d{2}(:\d{2})?")
COMMA = re.compile(r"\d+,\d+")


def read_fixtures_csv(path: Path) -> list[Listed]:
    """Return the fixtures of ``path`` in the order written.

    The first line names the columns, separated by commas or semicolons; only ``date`` is
    needed. Empty cells and empty lines count for nothing.

    Raises
    ------
    InputError
        With the line number, if anything in it cannot be used.
    """
    text = read_text(path)
    try:
        return list(_fixtures(path, text))
    except csv.Error as error:
        raise InputError(
            path, "", "must be a CSV table", str(error), "save it again from the spreadsheet as CSV"
        ) from None


def _fixtures(path: Path, text: str) -> Iterator[Listed]:
    lines = text.splitlines(keepends=True)
    rows = csv.reader(lines, delimiter=_delimiter(lines), strict=True)
    columns = _columns(path, next(rows, []))
    line = rows.line_num + 1
    for row in rows:
        if any(cell.strip() for cell in row):
            yield Listed(_fixture(path, f"line {line}", columns, row), f"line {line}")
        line = rows.line_num + 1


def _delimiter(lines: list[str]) -> str:
    return ";" if lines and ";" in lines[0] and "," not in lines[0] else ","


def _columns(path: Path, header: list[str]) -> list[str]:
    names = [name.strip().lower() for name in header]
    while names and not names[-1]:
        names.pop()
    for name in names:
        if name not in COLUMNS:
            close = nearest(name, COLUMNS)
            do = f"did you mean {close}?" if close else "take the column out"
            raise InputError(
                path, "line 1", f"columns must be among {', '.join(COLUMNS)}", f'"{name}"', do
            )
    twice = [name for name in names if names.count(name) > 1]
    if twice:
        raise InputError(
            path, "line 1", "a column must come once", f"{twice[0]} twice", "take one out"
        )
    if "date" not in names:
        raise InputError(
            path,
            "line 1",
            "the first line must name the columns, date among them",
            ", ".join(names) or "an empty line",
            f"start the file with a line such as {','.join(COLUMNS[:3])}",
        )
    return names


def _fixture(path: Path, where: str, columns: list[str], row: list[str]) -> Fixture:
    cells = [cell.strip() for cell in row]
    if any(cells[len(columns) :]):
        raise InputError(
            path,
            where,
            f"must have at most {len(columns)} cells, one a column",
            str(len(cells)),
            "put text that holds a comma in double quotes",
        )
    given = {name: cell for name, cell in zip(columns, cells, strict=False) if cell}
    _check_forms(path, where, given)
    lowered = {name: given[name].lower() for name in ("priority", "venue") if name in given}
    try:
        return Fixture.model_validate_strings({**given, **lowered})
    except ValidationError as error:
        raise InputError.from_pydantic(path, error, Fixture, where=where) from None


def _check_forms(path: Path, where: str, given: dict[str, str]) -> None:
    if "date" not in given:
        raise InputError(path, where, "date must be given", "an empty cell", "fill it in")
    if not DATE.fullmatch(given["date"]):
        raise InputError(
            path,
            f"{where}, date",
            "must be year-month-day such as 2026-09-05",
            given["date"],
            "write it so",
        )
    if not TIME.fullmatch(given.get("kickoff", "0:00")):
        raise InputError(
            path,
            f"{where}, kickoff",
            "must be a time such as 19:30",
            given["kickoff"],
            "write it so",
        )
    if len(given.get("kickoff", "")) in (4, 7):
        given["kickoff"] = f"0{given['kickoff']}"
    for name in NUMBERS:
        if COMMA.fullmatch(given.get(name, "")):
            raise InputError(
                path,
                f"{where}, {name}",
                "decimals must be written with a point",
                given[name],
                f"write {given[name].replace(',', '.')}",
            )
