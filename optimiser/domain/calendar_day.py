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


#: A date in a file, as text or as the date of TOML.
CalendarDay = Annotated[dt.date, AfterValidator(in_reach)]
