"""Dates that name no year, or only the day under the name of a month: what they mean."""

import datetime as dt
import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from contextlib import suppress
from itertools import pairwise
from typing import NamedTuple

from cli.files.fixtures_found import DateOrder
from cli.files.fixtures_months import month_of

_DAY = r"(\d{1,2})(?:st|nd|rd|th|er|[ºª°])?"
NAMED = re.compile(rf"{_DAY}[\s./-]*(?:de\s+|of\s+)?([^\W\d_]{{3,}})\.?", re.I)
MONTH_NAMED = re.compile(rf"([^\W\d_]{{3,}})\.?\s+{_DAY}", re.I)
NUMBERS = re.compile(r"(\d{1,2})[/.-](\d{1,2})\.?")
DAY = re.compile(rf"{_DAY}\.?", re.I)
MONTH = re.compile(r"([^\W\d_]{3,})\.?(?:[\s,]+(?:20)?\d\d)?", re.I)
SPAN = re.compile(r"(?<!\d)(20\d\d)\s*[/–_-]\s*(?:20)?(\d\d)(?!\d)")
YEAR = re.compile(r"(?<!\d)(20\d\d)(?!\d)")
#: Months of a year's second half, in which seasons of two years begin.
SECOND_HALF = 7


class DayAndMonth(NamedTuple):
    """A date without its year."""

    day: int
    month: int


def partial(text: str, heading: str, order: DateOrder) -> DayAndMonth | None:
    """Return the day and month of a cell that names no year; None if it is no such cell.

    Parameters
    ----------
    heading
        What stands above the rows, which may be the month.
    """
    if found := NAMED.fullmatch(text):
        return _checked(int(found[1]), month_of(found[2]))
    if found := MONTH_NAMED.fullmatch(text):
        return _checked(int(found[2]), month_of(found[1]))
    if found := NUMBERS.fullmatch(text):
        first, second = int(found[1]), int(found[2])
        day, month = (second, first) if order == "month-first" else (first, second)
        return _checked(day, month)
    found = DAY.fullmatch(text)
    return _checked(int(found[1]), heading_month(heading)) if found else None


def _checked(day: int, month: int | None) -> DayAndMonth | None:
    with suppress(ValueError):
        if month:
            dt.date(2024, month, day)  # a leap year has every day there is
            return DayAndMonth(day, month)
    return None


def heading_month(heading: str) -> int | None:
    """Return the month that a heading names, and nothing else but the year; or None."""
    found = MONTH.fullmatch(heading.strip())
    return month_of(found[1]) if found else None


def partial_order(texts: Iterable[str]) -> DateOrder:
    """Return the order that reads all dates in numbers without a year; day first if both do."""
    pairs = [found for text in texts if (found := NUMBERS.fullmatch(text))]
    return "month-first" if any(int(found[2]) > 12 for found in pairs) else "day-first"


def starting_month(months: Iterable[int]) -> int:
    """Return the month in which the season begins: after the longest stretch without a match."""
    used = sorted(set(months))
    gaps = [(after - before, after) for before, after in pairwise(used)]
    around = (used[0] + 12 - used[-1], used[0])
    return max([around, *gaps], key=lambda gap: (gap[0], gap == around))[1]


def years_named(texts: Iterable[str], start: int, months: Iterable[int]) -> list[int]:
    """Return the years in which the season may begin, by what titles say of it."""
    crosses = any(month < start for month in months)
    found = []
    for text in texts:
        if span := SPAN.search(text):
            later = not crosses and start < SECOND_HALF
            found.append(int(span[1]) + later)
        elif year := YEAR.search(text):
            found.append(int(year[1]))
    return list(dict.fromkeys(found))


def in_year(part: DayAndMonth, first: int, start: int) -> dt.date | None:
    """Return the day of a season that begins in the month ``start`` of the year ``first``."""
    with suppress(ValueError):
        return dt.date(first + (part.month < start), part.month, part.day)
    return None


def year_of_weekdays(
    parts: Mapping[str, DayAndMonth],
    weekdays: Mapping[str, int],
    start: int,
    years: Sequence[int],
) -> int | None:
    """Return the year of ``years`` in which most of ``weekdays`` are right; None if there is none.

    Parameters
    ----------
    parts, weekdays
        By where they stand; what is not in both counts for nothing.
    """
    right = Counter(
        year
        for year in years
        for where, part in parts.items()
        if where in weekdays
        and (day := in_year(part, year, start))
        and day.weekday() == weekdays[where]
    )
    best = max(years, key=lambda year: right[year], default=None)
    told = sum(where in weekdays for where in parts)
    return best if best is not None and 2 * right[best] > told else None
