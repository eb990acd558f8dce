"""What a league is made from."""

from enum import StrEnum

from pydantic import Field

from optimiser.domain.calendar_day import Monday
from optimiser.domain.scenario import MOST_WEEKS
from optimiser.domain.strict import Strict
from optimiser.league.clubs import MOST_CLUBS


class Closeness(StrEnum):
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
    start: Monday
    weeks: int = Field(default=52, ge=12, le=MOST_WEEKS)
    country: str | None = None
    congestion: Closeness = Closeness.SOME
    seed: int = Field(default=0, ge=0, le=2**31 - 1)
    swap: bool = True
