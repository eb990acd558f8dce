"""What a league is made from."""

import datetime as dt
from enum import StrEnum

from pydantic import Field, field_validator

from optimiser.domain.calendar_day import CalendarDay
from optimiser.domain.scenario import MOST_WEEKS, nearest_monday
from optimiser.domain.strict import Strict
from optimiser.league.clubs import MOST_CLUBS


class Congestion(StrEnum):
    """How closely matches follow each other.

    ``none`` plays on weekends only; ``some`` plays the cup in midweek; ``heavy`` also plays a
    third of the league in midweek, in runs of three weeks.
    """

    NONE = "none"
    SOME = "some"
    HEAVY = "heavy"


class LeagueSettings(Strict):
    """What a league is made from; same settings, same league.

    Parameters
    ----------
    start
        First day of week 1, a Monday.
    weeks
        Length of every season.
    country
        ISO code of the country whose public holidays count, with a subdivision if wanted
        (``NZ``, ``GB-ENG``); left out, there are none.
    swap
        See :func:`~optimiser.league.berger.double_table`.
    """

    clubs: int = Field(default=10, ge=4, le=MOST_CLUBS)
    start: CalendarDay
    weeks: int = Field(default=52, ge=12, le=MOST_WEEKS)
    country: str | None = None
    congestion: Congestion = Congestion.SOME
    seed: int = Field(default=0, ge=0, le=2**31 - 1)
    swap: bool = True

    @field_validator("start")
    @classmethod
    def _check_monday(cls, day: dt.date) -> dt.date:
        if day.weekday():
            raise ValueError(
                f"must be a Monday (got {day}, a {day:%A}); the nearest Monday is "
                f"{nearest_monday(day)}"
            )
        return day
