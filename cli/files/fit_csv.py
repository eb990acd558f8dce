"""Dated test results and loads from CSV tables.

The first line names the columns, in any order, separated by commas or semicolons. Dates are
year-month-day, decimals are written with a point, empty lines count for nothing.

Tests: ``date``, ``quality`` and ``result`` must be there, ``athlete`` and ``load`` may be; a row
without a result may hold a day's load. Logs: ``date`` and ``load`` (AU) must be there, ``quality``
and ``athlete`` may be; a load without a quality counts for all of them.
"""

import datetime as dt
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from cli.files.csv_head import cells_of_row, read_head, unlisted
from cli.files.csv_rows import any_filled, comma_or_semicolon, csv_rows
from cli.files.errors import InputError
from cli.files.read_text import read_text
from cli.files.squad_cells import Cell
from optimiser.response.record import Load, MeasuredResult

TEST_COLUMNS = ("date", "quality", "result", "athlete", "load")
LOG_COLUMNS = ("date", "load", "quality", "athlete")
KEY = re.compile(r"[a-z][a-z0-9_]{0,39}")
MOST_LOAD = 20000.0
MOST_DAYS = 3660
MOST_RESULT = 1e6

Row = tuple[str, dict[str, str]]


@dataclass
class ListedTests:
    """What the files hold: results by quality, and loads by quality ("" for all)."""

    results: dict[str, list[MeasuredResult]] = field(default_factory=dict)
    loads: dict[str, list[Load]] = field(default_factory=dict)

    def loads_of(self, quality: str) -> list[Load]:
        """Return the loads that count for a quality."""
        return [*self.loads.get(quality, ()), *self.loads.get("", ())]


def read_tests(path: Path) -> ListedTests:
    """Return the results, and the loads among them, of ``path``.

    Raises
    ------
    InputError
        With line and column, if anything in it cannot be used.
    """
    listed = ListedTests()
    for where, cells in _rows(path, TEST_COLUMNS, 3):
        quality = _quality(path, where, cells)
        if not quality:
            raise InputError(
                path, f"{where}, quality", "must be given", "an empty cell", "name the quality"
            )
        if "result" not in cells and "load" not in cells:
            raise InputError(
                path, where, "must have a result or a load", "neither", "fill one in or drop it"
            )
        date = _date(path, where, cells)
        if "result" in cells:
            value = _number(path, where, cells, "result", -MOST_RESULT, MOST_RESULT)
            result = MeasuredResult(date, value, cells.get("athlete", ""))
            listed.results.setdefault(quality, []).append(result)
        if "load" in cells:
            listed.loads.setdefault(quality, []).append(_load(path, where, cells, date))
    if not listed.results:
        raise InputError(path, "", "must hold at least one result", "none", "add the tests")
    check_span(path, listed)
    return listed


def read_loads(path: Path, listed: ListedTests) -> None:
    """Add the loads of a log to what the tests hold.

    Raises
    ------
    InputError
        With line and column, if anything in it cannot be used.
    """
    for where, cells in _rows(path, LOG_COLUMNS, 2):
        if "load" not in cells:
            raise InputError(
                path, f"{where}, load", "must be given", "an empty cell", "write 0 for none"
            )
        quality = _quality(path, where, cells)
        load = _load(path, where, cells, _date(path, where, cells))
        listed.loads.setdefault(quality, []).append(load)
    check_span(path, listed)


def check_span(path: Path, listed: ListedTests) -> None:
    """Refuse dates so far apart that one of them must be a slip."""
    rows: list[MeasuredResult | Load] = [
        *(result for rows in listed.results.values() for result in rows),
        *(load for rows in listed.loads.values() for load in rows),
    ]
    dates = [row.date for row in rows]
    first, last = min(dates), max(dates)
    if (last - first).days > MOST_DAYS:
        raise InputError(
            path, "", "dates must lie within ten years", f"{first} to {last}", "correct the date"
        )


def _rows(path: Path, known: Sequence[str], needed: int) -> Iterator[Row]:
    """Yield the place and the filled cells of each row; the first ``needed`` columns must exist."""
    lines = read_text(path).splitlines(keepends=True)
    rows = csv_rows(path, lines, comma_or_semicolon(lines))
    columns = read_head(path, next(rows, (1, []))[1], known[:needed], unlisted(path, known))
    for line, row in rows:
        if any_filled(row):
            where = f"line {line}"
            yield where, cells_of_row(path, where, columns, row, "write decimals with a point")


def _date(path: Path, where: str, cells: dict[str, str]) -> dt.date:
    at = f"{where}, date"
    if "date" not in cells:
        raise InputError(path, at, "must be given", "an empty cell", "fill it in")
    cell = Cell(path, at, cells["date"])
    try:
        return dt.date.fromisoformat(cell.date())
    except ValueError:
        raise cell.error("must be a day of the calendar", "correct it") from None


def _quality(path: Path, where: str, cells: dict[str, str]) -> str:
    if "quality" not in cells:
        return ""
    name = re.sub(r"[\s-]+", "_", cells["quality"].lower())
    if not KEY.fullmatch(name):
        raise Cell(path, f"{where}, quality", cells["quality"]).error(
            "must be the key of a quality: lower case letters, digits and underscores",
            "write one such as power",
        )
    return name


def _load(path: Path, where: str, cells: dict[str, str], date: dt.date) -> Load:
    value = _number(path, where, cells, "load", 0, MOST_LOAD)
    return Load(date, value, cells.get("athlete", ""))


def _number(
    path: Path, where: str, cells: dict[str, str], name: str, low: float, high: float
) -> float:
    cell = Cell(path, f"{where}, {name}", cells[name])
    value = cell.number()
    if not low <= value <= high:
        raise cell.error(f"must be {low:g} to {high:g}", "correct it")
    return value
