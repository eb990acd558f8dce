"""Dates without a year in a column of them, each brought to a whole date."""

import datetime as dt
from collections.abc import Sequence
from pathlib import Path

from cli.files.errors import InputError
from cli.files.fixtures_columns import WEEKDAY
from cli.files.fixtures_dates import day_in, split_cell
from cli.files.fixtures_found import DateOrder, ListFacts
from cli.files.fixtures_rows import HEADING, Given
from cli.files.fixtures_spans import days_of_span
from cli.files.fixtures_weekdays import weekday_named, without_weekday
from cli.files.fixtures_years import (
    DayAndMonth,
    heading_month,
    in_year,
    partial,
    partial_order,
    starting_month,
    year_of_weekdays,
    years_named,
)

#: Any leap year: to see whether a text is a date once a year stands behind it.
SOME_YEAR = 2024
#: Years looked at from this one on, where only days of the week tell.
BEHIND, AHEAD = 1, 3


def weekday_of(cells: dict[str, str]) -> int | None:
    """Return the day of the week (0 is Monday) that stands in or beside the date, or None."""
    _, inside = without_weekday(cells.get("date", ""))
    return inside if inside is not None else weekday_named(cells.get(WEEKDAY, ""))


def whole_dates(
    path: Path,
    given: Sequence[Given],
    titles: Sequence[str],
    asked: ListFacts,
    today: dt.date | None = None,
) -> tuple[list[Given], list[str]]:
    """Return rows with whole dates, and a notice of the years if they had to be found.

    The year is that of a title, of a heading, the one asked for, or the one near ``today`` in which
    the days of the week beside the dates are right.

    Raises
    ------
    InputError
        If nothing tells the year.
    """
    parts = _parts(given, asked.dates)
    if not parts:
        return list(given), []
    start = starting_month(part.month for part in parts.values())
    months = [part.month for part in parts.values()]
    named = years_named([*_headings(given), *titles], start, months)
    first, why = _first_year(path, parts, given, start, named, asked, today or dt.date.today())
    found = [(where, _whole(where, cells, parts, first, start)) for where, cells in given]
    years = sorted({first + (month < start) for month in months})
    told = " and ".join(map(str, years))
    return found, [f"dates without a year are read as {told}, {why}"]


def _parts(given: Sequence[Given], asked: DateOrder) -> dict[str, DayAndMonth]:
    dates = {where: _plain(cells) for where, cells in given}
    order = asked or partial_order(dates.values())
    found = {}
    for where, cells in given:
        text = dates[where]
        if any(day_in(text, each) for each in ("day-first", "month-first")):
            continue
        part = partial(text, cells.get(HEADING, ""), order)
        days = [] if part else days_of_span(f"{text} {SOME_YEAR}", order)
        if part or days:
            found[where] = part or DayAndMonth(days[0].day, days[0].month)
    return found


def _plain(cells: dict[str, str]) -> str:
    return split_cell(cells.get("date", ""))[0].strip(" .,")


def _headings(given: Sequence[Given]) -> list[str]:
    headings = dict.fromkeys(cells.get(HEADING, "") for _, cells in given)
    return [heading for heading in headings if heading_month(heading)][:1]


def _first_year(
    path: Path,
    parts: dict[str, DayAndMonth],
    given: Sequence[Given],
    start: int,
    named: Sequence[int],
    asked: ListFacts,
    today: dt.date,
) -> tuple[int, str]:
    """Return the year in which the season begins, and what tells it."""
    if asked.year:
        return asked.year, "as asked"
    weekdays = {where: day for where, cells in given if (day := weekday_of(cells)) is not None}
    near = [today.year + step for step in range(-BEHIND, AHEAD)]
    by_day = year_of_weekdays(parts, weekdays, start, named or near)
    if by_day is not None:
        return by_day, "as the days of the week beside them say"
    if named:
        return named[0], "as its title or its name says"
    where = next(iter(parts))
    text = next(cells["date"] for place, cells in given if place == where)
    raise InputError(
        path,
        f"{where}, date",
        "must have a year, or the list must name the season's",
        text,
        f"say in which year the season begins by `seasonwright new --year {today.year}`",
    )


def _whole(
    where: str, cells: dict[str, str], parts: dict[str, DayAndMonth], first: int, start: int
) -> dict[str, str]:
    part = parts.get(where)
    day = part and in_year(part, first, start)
    if not part:
        return cells
    text, time = split_cell(cells["date"])
    if not day or days_of_span(f"{text} {SOME_YEAR}", "day-first"):
        return {**cells, "date": f"{text} {first + (part.month < start)}"}
    return {**cells, "date": f"{_as_said(cells, day)} {time}".strip()}


def _as_said(cells: dict[str, str], day: dt.date) -> str:
    """Return a whole date beside the day of the week that the list gives it."""
    weekday = weekday_of(cells)
    names = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
    return str(day) if weekday is None else f"{names[weekday]} {day}"
