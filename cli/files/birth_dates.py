"""Days of birth in a squad file, and the ages they mean."""

import datetime as dt
from collections.abc import Sequence
from pathlib import Path

from cli.files.errors import InputError
from cli.files.fixtures_dates import NUMBERS, ORDERS, date_order, day_in, split_cell
from cli.files.fixtures_found import DateOrder

#: What the column may be called.
BORN = ("born", "birth_date", "date_of_birth", "dob")
YOUNGEST, OLDEST = 8, 99
CENTURY = 100
#: Rows: the line each starts on, and its cells by column.
Row = tuple[int, dict[str, str]]


def with_ages(path: Path, rows: Sequence[Row], on: dt.date) -> list[Row]:
    """Return rows with an age in the place of a day of birth.

    Days are as spreadsheets write them, where all of them together tell the day from the month.

    Parameters
    ----------
    on
        The day that ages are of.

    Raises
    ------
    InputError
        With line and column, if a day cannot be read, or an age beside it is another.
    """
    texts = [text for _, cells in rows if (text := _born(cells)[1])]
    order, _ = date_order([split_cell(text)[0] for text in texts])
    return [(line, _aged(path, line, cells, order, on)) for line, cells in rows]


def _born(cells: dict[str, str]) -> tuple[str, str]:
    """Return the column that holds a day of birth, and what it holds."""
    return next(((name, cells[name]) for name in BORN if name in cells), ("", ""))


def _aged(
    path: Path, line: int, cells: dict[str, str], order: DateOrder, on: dt.date
) -> dict[str, str]:
    column, text = _born(cells)
    if not column:
        return cells
    where = f"line {line}, {column}"
    day = _past(day_in(split_cell(text)[0], order), on)
    if day is None:
        raise _unread(path, where, text, order)
    age = on.year - day.year - ((on.month, on.day) < (day.month, day.day))
    if not YOUNGEST <= age <= OLDEST:
        must = f"must be the birth of somebody of {YOUNGEST} to {OLDEST} years on {on}"
        raise InputError(path, where, must, text, "correct it")
    told = cells.get("age", "")
    if told.isdecimal() and abs(int(told) - age) > 1:
        must = f"{column} and age must agree"
        do = "correct one or leave it out"
        raise InputError(path, where, must, f"{text}, which is {age} on {on}, and {told}", do)
    rest = {name: cell for name, cell in cells.items() if name not in BORN}
    return {**rest, "age": str(age)}


def _past(day: dt.date | None, on: dt.date) -> dt.date | None:
    """Return a day of birth: a year of two digits that lies ahead is of the last century."""
    if day is None or day <= on:
        return day
    last = 28 if (day.month, day.day) == (2, 29) else day.day
    return day.replace(year=day.year - CENTURY, day=last)


def _unread(path: Path, where: str, text: str, order: DateOrder) -> InputError:
    plain = split_cell(text)[0]
    ways = {f"{day.day} {day:%B %Y}" for each in ORDERS if (day := day_in(plain, each))}
    if NUMBERS.fullmatch(plain) and not order and len(ways) > 1:
        must = "must tell the day from the month, this or another of the column"
        do = "write the column year first, such as 2009-06-01"
        return InputError(path, where, must, f"{text}: {' or '.join(sorted(ways))}", do)
    must = f"must be a day of birth{f', {order} as the others' if order else ''}"
    return InputError(path, where, must, text, "write it year first, such as 2009-06-01")
