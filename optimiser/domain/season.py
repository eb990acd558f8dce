"""A season ready to be planned: every week with its dates, phase, fixtures and targets."""

import datetime as dt
from typing import Self

from pydantic import Field, model_validator

from optimiser.domain.fixture import Break, Fixture, Priority
from optimiser.domain.phase import Phase as Phase
from optimiser.domain.practice import PracticeWeek
from optimiser.domain.quality import Quality
from optimiser.domain.strict import Strict
from optimiser.domain.week_number import number_of


class Week(Strict):
    """Monday to Sunday.

    Parameters
    ----------
    index
        Counted from 0; people are shown ``index + 1``.
    open_days
        Days on which training is allowed and no match is played.
    closed
        True if the week has no training at all.
    days_off
        Days without training just before this week, counted in whole closed weeks times 7.
    session_limit
        Most sessions a break allows, or None.
    target
        Readiness target, 0-100.
    practice_load, match_load
        Team practice and matches in this week, in AU.
    practice
        Team practice of a usual week of the phase: days, times and length of one.
    """

    index: int = Field(ge=0)
    monday: dt.date
    phase: Phase
    fixtures: tuple[Fixture, ...] = ()
    breaks: tuple[Break, ...] = ()
    open_days: int = Field(default=7, ge=0, le=7)
    closed: bool = False
    session_limit: int | None = Field(default=None, ge=0)
    target: float = Field(ge=0, le=100)
    practice_load: int = Field(default=0, ge=0)
    match_load: int = Field(default=0, ge=0)
    practice: PracticeWeek | None = None

    @property
    def number(self) -> int:
        """Return the week as people count it, from 1."""
        return number_of(self.index)

    @property
    def fixed_load(self) -> int:
        """Return the load that is not this plan's to choose, in AU."""
        return self.practice_load + self.match_load

    @property
    def top_priority(self) -> Priority | None:
        """Return the highest priority among the week's fixtures."""
        here = {fixture.priority for fixture in self.fixtures}
        return next((priority for priority in Priority if priority in here), None)


class Surplus(Strict):
    """What was done of one quality in one week beyond what its dose stands for.

    Parameters
    ----------
    week, quality
        Indices from 0.
    gain, strain
        Stimulus and fatigue on top, unitless; below 0 where less was done.
    """

    week: int = Field(ge=0)
    quality: int = Field(ge=0)
    gain: float
    strain: float


class OutsideLoad(Strict):
    """Load of a day that no plan asked for, in matches of the usual length."""

    date: dt.date
    matches: float = Field(gt=0)


class Event(Strict):
    """Matches on days in a row that belong together: prepared for once, and judged as they begin.

    Parameters
    ----------
    first, last
        First and last day.
    """

    first: dt.date
    last: dt.date


class Season(Strict):
    """Consecutive weeks and the qualities to plan in them.

    Parameters
    ----------
    fatigue_scale
        Factor on every quality's fatigue, so that sums of gains and of fatigue compare.
    match_fatigue
        Readiness points a full match still costs on the same day.
    match_tau
        Time constant, in days, of that cost.
    travel_fatigue
        Readiness points one hour of one-way travel costs on the day.
    emphasis
        Emphasis targets 0-100, one row a quality and one column a week.
    matches
        Matches listed, of which several on a day are one fixture; 0 if it is not known.
    listed
        Of days with several matches, each match as it was listed.
    events
        Matches on days in a row that belong together.
    surplus, outside
        What was done otherwise than doses and the calendar say, in weeks that are over.
    under_18, school_assumed
        Whether all who train are, and whether their hours of school are but assumed.
    """

    name: str = Field(min_length=1, max_length=120)
    sport: str = Field(default="", max_length=60)
    weeks: tuple[Week, ...] = Field(min_length=1, max_length=260)
    qualities: tuple[Quality, ...] = Field(min_length=1, max_length=12)
    emphasis: tuple[tuple[float, ...], ...]
    fatigue_scale: float = Field(default=0.6, ge=0, le=5)
    match_fatigue: float = Field(default=10.0, ge=0, le=50)
    match_tau: float = Field(default=2.5, gt=0, le=30)
    match_minutes: float = Field(default=80.0, gt=0, le=240)
    travel_fatigue: float = Field(default=0.4, ge=0, le=10)
    reach: float = Field(default=1.3, gt=0, le=2)
    matches: int = Field(default=0, ge=0)
    listed: tuple[Fixture, ...] = ()
    events: tuple[Event, ...] = ()
    surplus: tuple[Surplus, ...] = ()
    outside: tuple[OutsideLoad, ...] = ()
    under_18: bool = False
    school_assumed: bool = False

    @model_validator(mode="after")
    def _check_shape(self) -> Self:
        shape = {len(row) for row in self.emphasis}
        if len(self.emphasis) != len(self.qualities) or shape != {len(self.weeks)}:
            raise ValueError("emphasis must have one row a quality and one column a week")
        return self

    @property
    def keys(self) -> tuple[str, ...]:
        """Return the qualities' keys, in order."""
        return tuple(quality.key for quality in self.qualities)

    @property
    def fixtures(self) -> tuple[Fixture, ...]:
        """Return every fixture by date."""
        return tuple(fixture for week in self.weeks for fixture in week.fixtures)

    def played_on(self, day: dt.date) -> tuple[Fixture, ...]:
        """Return the matches of a day, each as it was listed."""
        several = tuple(match for match in self.listed if match.date == day)
        return several or tuple(fixture for fixture in self.fixtures if fixture.date == day)

    def event_on(self, day: dt.date) -> Event | None:
        """Return the event of several days that ``day`` is one of, if there is one."""
        return next((event for event in self.events if event.first <= day <= event.last), None)

    def weeks_with(self, priority: Priority) -> list[int]:
        """Return the indices of weeks with a fixture eased into as ``priority`` is."""
        return [
            week.index
            for week in self.weeks
            if any(fixture.priority.eased_as is priority for fixture in week.fixtures)
        ]

    def full_minutes(self) -> int:
        """Return the minutes of a week with every quality at full dose, on its longest band."""
        return sum(quality.most_minutes for quality in self.qualities)
