"""A fixture: one match on one date."""

import datetime as dt
from enum import StrEnum
from typing import Literal, Self

from pydantic import Field, model_validator

from optimiser.domain.calendar_day import CalendarDay, check_order
from optimiser.domain.strict import Strict

#: What lists write for an opponent that is not settled yet.
TO_COME = {"tbc", "tba", "tbd", "to be confirmed", "to be announced", "to be decided", ""}


class Priority(StrEnum):
    """How much a fixture matters to the season; ``peak`` is for the one or two of the year."""

    PEAK = "peak"
    HIGH = "high"
    MEDIUM = "medium"
    LOW = "low"

    @property
    def eased_as(self) -> "Priority":
        """Return the priority whose run-in and taper it gets: a peak those of a high fixture."""
        return Priority.HIGH if self is Priority.PEAK else self

    @property
    def great(self) -> bool:
        """Return whether it is peaked and tapered for."""
        return self.eased_as is Priority.HIGH


class Fixture(Strict):
    """One match.

    Parameters
    ----------
    date
        Local calendar date of the match.
    kickoff
        Local start time; left out when not known.
    opponent, competition, venue
        Words for people; nothing is planned by them.
    priority
        ``peak`` and ``high`` fixtures are peaked and tapered for, a peak before all others;
        ``medium`` ones are eased into for a week.
    minutes
        Minutes a starter plays; left out, the scenario's match length counts.
    travel_hours
        One-way travel, in hours.
    target, weight
        Readiness target of its week (0-100) and what a point below it costs, over what the
        priority says.
    """

    date: CalendarDay
    kickoff: dt.time | None = None
    opponent: str = Field(default="", max_length=200)
    competition: str = Field(default="", max_length=200)
    venue: Literal["", "home", "away", "neutral"] = ""
    priority: Priority = Priority.LOW
    minutes: float | None = Field(default=None, gt=0, le=1440)
    travel_hours: float = Field(default=0.0, ge=0, le=48)
    target: float | None = Field(default=None, ge=0, le=100)
    weight: int | None = Field(default=None, ge=1, le=100)

    @property
    def name(self) -> str:
        """Return the words a person knows this match by; an opponent to be settled is none."""
        known = "" if self.opponent.strip(" .?").lower() in TO_COME else self.opponent
        return known or self.competition or self.opponent or "match"


BreakKind = Literal["rest", "camp", "exams", "bye"]


class Break(Strict):
    """A stretch of days that is not like the others.

    Parameters
    ----------
    kind
        ``rest``: no training at all. ``exams``: at most ``sessions`` a week. ``camp`` and
        ``bye``: trained as usual, marked on the calendar.
    first, last
        First and last day, both counted.
    note
        A few words for people.
    sessions
        Most field plus gym sessions in a week the break touches; 2 for exams if left out.
    """

    kind: BreakKind
    first: CalendarDay
    last: CalendarDay
    note: str = Field(default="", max_length=200)
    sessions: int | None = Field(default=None, ge=0, le=10)

    @model_validator(mode="after")
    def _check_order(self) -> Self:
        check_order(self.first, self.last)
        return self
