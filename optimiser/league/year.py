"""The shape of a league's year: which weeks are played, and which one rests."""

import datetime as dt
from collections.abc import Collection
from dataclasses import dataclass

from optimiser.league.settings import LeagueSettings

LEAD_WEEKS = 10
CLOSE_WEEKS = 2
LONG_YEAR = 40
BREAK_FROM_WEEKS = 20
WEEKS_A_ROUND = 2


@dataclass(frozen=True)
class Year:
    """Indices of weeks, from 0.

    Parameters
    ----------
    first, last
        First and last week with matches.
    rest
        The week in mid-season without any, or None in a short season.
    """

    start: dt.date
    weeks: int
    first: int
    last: int
    rest: int | None

    def played(self) -> list[int]:
        """Return the weeks in which a match may fall."""
        return [week for week in range(self.first, self.last + 1) if week != self.rest]

    def day(self, week: int, weekday: int) -> dt.date:
        """Return the date of a weekday (Monday 0) of a week."""
        return self.start + dt.timedelta(days=7 * week + weekday)


def shape_year(settings: LeagueSettings, rounds: int, holidays: Collection[dt.date] = ()) -> Year:
    """Return the year of a league of ``rounds``, the cup's among them.

    A year of 40 weeks or more opens with ten weeks without a match and closes with two; a
    shorter one opens with a quarter of it. A small league opens later, so that it plays at
    least every other week. The week of rest is the one with most ``holidays``
    in the middle half of the matches, else the middle one.
    """
    long = settings.weeks >= LONG_YEAR
    last = settings.weeks - 1 - (CLOSE_WEEKS if long else 0)
    first = LEAD_WEEKS if long else settings.weeks // 4
    first = max(first, last - WEEKS_A_ROUND * rounds)
    return Year(
        settings.start,
        settings.weeks,
        first,
        last,
        _rest_week(settings.start, first, last, holidays),
    )


def _rest_week(start: dt.date, first: int, last: int, holidays: Collection[dt.date]) -> int | None:
    length = last - first + 1
    if length < BREAK_FROM_WEEKS:
        return None
    middle = first + length // 2
    inside = range(middle - length // 4, middle + length // 4 + 1)
    held = [(day - start).days // 7 for day in holidays]
    return max(inside, key=lambda week: (held.count(week), -abs(week - middle)))
