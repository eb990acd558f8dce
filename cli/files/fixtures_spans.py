"""Dates of several days in one cell, as tournaments are listed: 5-7 June 2027."""

import datetime as dt
import re
from collections.abc import Sequence

from cli.files.fixtures_dates import day_in
from cli.files.fixtures_found import DateOrder
from cli.files.fixtures_weekdays import without_weekday

#: More days than this in one cell are no tournament.
MOST_DAYS = 10
_TO = r"\s*(?:-|–|—|/|&|\+|\band\b|\bto\b|\bund\b|\bbis\b|\bau\b|\bet\b)\s*"
_DAY = r"(\d{1,2})(?:st|nd|rd|th|\.)?"
ONE_MONTH = re.compile(rf"{_DAY}{_TO}{_DAY}(\s*(?:of\s+)?[^\W\d_]{{3,}}.*)", re.I)
MONTH_FIRST = re.compile(rf"([^\W\d_]{{3,}}\.?\s+){_DAY}{_TO}{_DAY}(,?\s*\d{{4}})", re.I)
YEAR = re.compile(r"\d{4}")


def days_of_span(text: str, order: DateOrder) -> Sequence[dt.date]:
    """Return each day of a cell such as ``5-7 June 2027``; none if it is no such cell."""
    if day_in(text, "day-first") or day_in(text, "month-first"):
        return ()
    for first, last in _ends(text):
        start, end = day_in(_bare(first), order), day_in(_bare(last), order)
        if start and end and 0 < (end - start).days < MOST_DAYS:
            return [start + dt.timedelta(days=step) for step in range((end - start).days + 1)]
    return ()


def _bare(text: str) -> str:
    return without_weekday(text.strip())[0].strip()


def _ends(text: str) -> list[tuple[str, str]]:
    """Return what the first and the last day may be."""
    if found := MONTH_FIRST.fullmatch(text):
        return [(f"{found[1]}{found[2]}{found[4]}", f"{found[1]}{found[3]}{found[4]}")]
    found = ONE_MONTH.fullmatch(text)
    ends = [(f"{found[1]}{found[3]}", f"{found[2]}{found[3]}")] if found else []
    for cut in re.finditer(_TO, text, re.I):
        first, last = text[: cut.start()], text[cut.end() :]
        year = YEAR.findall(last)
        ends += [(first, last), *([(f"{first} {year[-1]}", last)] if year else [])]
        ends += [(f"{_bare(first)} {_month_on(last)}", last)]
    return ends


def _month_on(text: str) -> str:
    """Return what follows the number of the day: the month and the year."""
    return re.sub(r"^\s*\d{1,2}(?:st|nd|rd|th|\.)?\s*", "", _bare(text))
