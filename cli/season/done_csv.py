"""The file of what was done: read, and added to without touching what stands there."""

import csv
import datetime as dt
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from cli.files.csv_head import check_names
from cli.files.errors import InputError
from cli.files.fixtures_dates import ORDERS, date_order, day_in, split_cell
from cli.files.fixtures_found import DateOrder
from cli.files.known_keys import nearest
from cli.files.own_columns import misspelt
from cli.files.read_text import read_any_text
from cli.files.rows_added import rows_added, separator_of
from cli.files.safe_cell import plain_cell, safe_cell
from optimiser.domain.season import Season
from optimiser.progress.done_session import MATCH, PLACES, PRACTICE, DoneSession

NEEDED = ("date", "what")
COLUMNS = (
    "date", "who", "what", "minutes", "rpe", "load", "dose", "band", "sets", "exercise", "kg",
    "reps", "left", "note",
)  # fmt: skip
NUMBERS = ("minutes", "rpe", "load", "sets", "kg", "reps", "left")
#: Other words for what is done, and for a dose of none.
WHATS = {"team practice": PRACTICE, "training": PRACTICE, "game": MATCH, "fixture": MATCH}
MISSED = "missed"
Row = tuple[str, dict[str, str]]


def read_done(path: Path, season: Season, last: dt.date) -> list[DoneSession]:
    """Return what was done up to ``last``, in the order of the file; nothing if there is no file.

    The first line names the columns, separated by commas, semicolons or tabs; date and what must
    be there. Columns of other names are passed over, and so are lines that start with ``#``.

    Raises
    ------
    InputError
        With the line, if a cell cannot be used or a day is not over.
    """
    return done_in(path, read_any_text(path), season, last) if path.exists() else []


def done_in(path: Path, text: str, season: Season, last: dt.date) -> list[DoneSession]:
    """Return what the text of a file of what was done says; see :func:`read_done`."""
    rows = table_rows(path, text, COLUMNS)
    return sessions_of(path, rows, season, last)


def table_rows(path: Path, text: str, columns: Sequence[str]) -> list[Row]:
    """Return the rows of a table: the line each starts on, and its cells by column."""
    try:
        found = list(_lines(text))
    except csv.Error as error:
        do = "save it again from the spreadsheet as CSV"
        raise InputError(path, "", "must be a CSV table", str(error), do) from None
    if not found:
        return []
    head = [name.strip() for name in found[0][1]]
    names = [_column(path, name, columns) for name in head]
    check_names(path, names, NEEDED)
    return [(where, cells) for where, row in found[1:] if (cells := _cells(names, row))]


def sessions_of(
    path: Path, rows: Sequence[Row], season: Season, last: dt.date, *, whole: bool = False
) -> list[DoneSession]:
    """Return the records that the rows of a table say.

    Parameters
    ----------
    whole
        True if they may tell of whole field or gym sessions, to be shared out.
    """
    order = _order(path, [split_cell(cells.get("date", ""))[0] for _, cells in rows], season, last)
    made = [_Record(path, where, cells, season, whole=whole).read(order) for where, cells in rows]
    late = next((each for each in made if each.date > last), None)
    if late is not None:
        must = f"date must not lie after today, {last}"
        raise InputError(path, late.where, must, str(late.date), "correct the date")
    return made


def _order(path: Path, dates: Sequence[str], season: Season, last: dt.date) -> DateOrder:
    """Return the order of day and month: the one that reads all dates as days of the season."""
    order, unsure = date_order(dates)
    if not unsure:
        return order
    first = season.weeks[0].monday
    able = [
        order
        for order in ORDERS
        if all((day := day_in(date, order)) and first <= day <= last for date in dates)
    ]
    if len(able) != 1:
        must, do = "date must tell the day from the month", "write dates as year-month-day"
        raise InputError(path, "date", must, unsure, do)
    return able[0]


def added(text: str, sessions: Sequence[DoneSession]) -> str:
    """Return the text of the file with records added at its end, in its own columns."""
    return rows_added(text, [_written(each) for each in sessions], COLUMNS)


def _written(session: DoneSession) -> dict[str, str]:
    given = session.model_dump(mode="json", exclude_none=True)
    return {name: _cell(given.get(name, "")) for name in COLUMNS}


def _cell(value: Any) -> str:
    return f"{value:g}" if isinstance(value, float) else str(safe_cell(value))


def _lines(text: str) -> Iterator[tuple[str, list[str]]]:
    lines = text.splitlines(keepends=True)
    head = next((line for line in lines if line.strip() and not line.startswith("#")), "")
    rows = csv.reader(lines, delimiter=separator_of(head), strict=True)
    line = 1
    for row in rows:
        if any(cell.strip() for cell in row) and not row[0].startswith("#"):
            yield f"line {line}", row
        line = rows.line_num + 1


def _column(path: Path, name: str, columns: Sequence[str]) -> str:
    """Return the column a heading names; empty if it is a person's own."""
    plain = name.lower()
    if plain in columns:
        return plain
    if meant := misspelt(plain, columns, ()):
        must = f"columns must be among {', '.join(columns)}"
        raise InputError(path, "line 1", must, f'"{name}"', f"did you mean {meant}?")
    return ""


def _cells(names: Sequence[str], row: Sequence[str]) -> dict[str, str]:
    pairs = zip(names, (plain_cell(cell.strip()) for cell in row), strict=False)
    return {name: cell for name, cell in pairs if name and cell}


class _Record:
    """One row on its way to what was done."""

    def __init__(
        self, path: Path, where: str, cells: Mapping[str, str], season: Season, *, whole: bool
    ) -> None:
        self.path, self.where, self.cells, self.season = path, where, dict(cells), season
        self.places = PLACES if whole else ()

    def read(self, order: DateOrder) -> DoneSession:
        given: dict[str, Any] = {name: self.cells[name] for name in self.cells}
        given |= {"date": self._date(order), "what": self._what(), "where": self.where}
        for name in NUMBERS:
            if name in given:
                given[name] = self._number(name)
        if given.get("dose", "").lower() == MISSED:
            given["dose"] = "none"
        if "dose" in given:
            given["dose"] = given["dose"].lower()
        if "exercise" in given:
            given["exercise"] = "_".join(given["exercise"].lower().split())
        if "band" in given:
            given["band"] = self._band(given["what"])
        try:
            return DoneSession.model_validate(given)
        except ValidationError as error:
            raise InputError.from_pydantic(
                self.path, error, DoneSession, where=self.where
            ) from None

    def _refuse(self, column: str, must: str, do: str = "correct it") -> InputError:
        got = self.cells.get(column, "an empty cell")
        place = ", ".join(part for part in (self.where, column) if part)
        return InputError(self.path, place, must, got, do)

    def _date(self, order: DateOrder) -> dt.date:
        day = day_in(split_cell(self.cells.get("date", ""))[0], order)
        first = self.season.weeks[0].monday
        last = self.season.weeks[-1].monday + dt.timedelta(days=6)
        if day is None:
            raise self._refuse("date", "must be a date such as 2026-09-05")
        if not first <= day <= last:
            raise self._refuse("date", f"must lie in the season, {first} to {last}")
        return day

    def _what(self) -> str:
        given = self.cells.get("what", "").lower()
        names = {PRACTICE: PRACTICE, MATCH: MATCH, **WHATS, **{each: each for each in self.places}}
        for quality in self.season.qualities:
            names |= {quality.key: quality.key, quality.name.lower(): quality.key}
        if given not in names:
            close = nearest(given, list(names)) if given else None
            known = (*self.season.keys, *self.places, PRACTICE, MATCH)
            must = f"must be one of {', '.join(known)}"
            do = f"did you mean {close}?" if close else "say which"
            if given in PLACES:
                do = f"record it by `done --what {given}`, which shares it out over its work"
            raise self._refuse("what", must, do)
        return names[given]

    def _number(self, name: str) -> float:
        text = self.cells[name].replace(",", ".")
        try:
            return float(text)
        except ValueError:
            raise self._refuse(name, "must be a number") from None

    def _band(self, what: str) -> str:
        given = self.cells["band"]
        quality = next((each for each in self.season.qualities if each.key == what), None)
        codes = [band.code for band in quality.bands] if quality else []
        found = next((code for code in codes if code.lower() == given.lower()), None)
        if found is None:
            told = f"must be one of {', '.join(codes)}" if codes else "must be empty here"
            raise self._refuse("band", told)
        return found
