"""A day that a season, with its margins, can lie around."""

import datetime as dt
from typing import Annotated

from pydantic import AfterValidator

#: Years that can be written; far enough from where calendars end to count weeks from any day.
FIRST_YEAR, LAST_YEAR = 1900, 2199


def in_reach(day: dt.date) -> dt.date:
    """Return ``day``.

    Raises
    ------
    ValueError
        If it lies before 1900 or after 2199.
    """
    if not FIRST_YEAR <= day.year <= LAST_YEAR:
        raise ValueError(
            f"must lie in the years {FIRST_YEAR} to {LAST_YEAR} (got {day}); correct the year"
        )
    return day


def check_order(first: dt.date, last: dt.date) -> None:
    """Check that a stretch of days does not end before it begins.

    Raises
    ------
    ValueError
        If it does.
    """
    if last < first:
        raise ValueError(f"last must not come before first (got {first} to {last}); swap them")


#: A date in a file, as text or as the date of TOML.
CalendarDay = Annotated[dt.date, AfterValidator(in_reach)]


def monday_of(day: dt.date) -> dt.date:
    """Return the Monday of a day's week."""
    return day - dt.timedelta(days=day.weekday())


def nearest_monday(day: dt.date) -> dt.date:
    """Return the Monday closest to ``day``."""
    back = day.weekday()
    return day + dt.timedelta(days=-back if back <= 3 else 7 - back)


def on_monday(day: dt.date) -> dt.date:
    """Return ``day``.

    Raises
    ------
    ValueError
        If it is another day of the week than Monday.
    """
    if day.weekday():
        raise ValueError(
            f"must be a Monday (got {day}, a {day:%A}); the nearest Monday is {nearest_monday(day)}"
        )
    return day


#: The first day of a week, in a file.
Monday = Annotated[CalendarDay, AfterValidator(on_monday)]
