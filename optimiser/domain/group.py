"""Groups of a squad: who plays how much of the matches."""

import datetime as dt
from enum import StrEnum

from pydantic import Field

from optimiser.domain.strict import Strict


class Group(StrEnum):
    """Where an athlete stands this week."""

    STARTERS = "starters"
    SQUAD = "squad"
    NON_PLAYING = "non-playing"
    RETURNING = "returning"


class GroupSettings(Strict):
    """What sets one group's season apart from the calendar all of them share.

    Parameters
    ----------
    match_share
        Share of every match's minutes this group plays, 0 to 1; load and fatigue follow it.
    match_stimulus
        Share of what a match gives (``match_gain`` of a quality); left out, ``match_share``.
    travels
        False if the group stays at home, so that travel costs it nothing.
    weight
        How much its readiness counts beside the other groups'.
    back
        First day of training after time away; the group joins on the first Monday from then on, and
        restarts as after any time off: its bands are its own until they reach the squad's.
    note
        A few words for people.
    """

    match_share: float = Field(default=1.0, ge=0, le=1)
    match_stimulus: float | None = Field(default=None, ge=0, le=1)
    travels: bool = True
    weight: int = Field(default=1, ge=1, le=100)
    back: dt.date | None = None
    note: str = Field(default="", max_length=200)

    @property
    def stimulus(self) -> float:
        """Return the share of a match's stimulus the group gets."""
        return self.match_share if self.match_stimulus is None else self.match_stimulus
