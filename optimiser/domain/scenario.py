"""A scenario: what a person writes down about a season, before any of it is worked out."""

import datetime as dt
from itertools import pairwise
from typing import Any, Self

from pydantic import Field, model_validator

from optimiser.domain.calendar_day import Monday
from optimiser.domain.fixture import Break, Fixture, Priority
from optimiser.domain.group import Group, GroupSettings
from optimiser.domain.practice import Practice
from optimiser.domain.rates import Rates
from optimiser.domain.season import Phase
from optimiser.domain.strict import Strict
from optimiser.domain.target_settings import TargetSettings

MOST_WEEKS = 260


class PhaseStart(Strict):
    """The week in which a phase starts; it lasts until the next one starts.

    Parameters
    ----------
    phase
        Which part of the year.
    first_week
        Counted from 1.
    """

    phase: Phase
    first_week: int = Field(ge=1, le=MOST_WEEKS)


class MatchSettings(Strict):
    """What a match takes.

    Parameters
    ----------
    minutes
        Minutes of a starter, where the fixture does not say.
    rpe
        Session rating of a match, 0-10.
    fatigue, tau, travel_fatigue
        See :class:`~optimiser.domain.season.Season` (``match_fatigue``, ``match_tau``,
        ``travel_fatigue``); left out, the season's own default counts.
    """

    minutes: float = Field(default=80, gt=0, le=240)
    rpe: float = Field(default=8, ge=0, le=10)
    fatigue: float | None = Field(default=None, ge=0, le=50)
    tau: float | None = Field(default=None, gt=0, le=30)
    travel_fatigue: float | None = Field(default=None, ge=0, le=10)


class ReadinessSettings(Strict):
    """Scale of the readiness index; left out, the season's own default counts.

    Parameters
    ----------
    fatigue_scale
        Factor on every quality's fatigue; 0.6 if left out.
    reach
        Share of the top of the scale (steady full work on the top rung, rested) that is 100 points
        at 1; 1.3 if left out, so that a legal plan with a match a week meets 95 at a high fixture.
    start
        Readiness at the first Monday, such as the last season's on its last day; left out, it
        follows from the phase of the first week.
    """

    fatigue_scale: float | None = Field(default=None, ge=0, le=5)
    reach: float | None = Field(default=None, gt=0, le=2)
    start: float | None = Field(default=None, ge=0, le=100)


class Scenario(Strict):
    """A season as it is written down.

    Parameters
    ----------
    name, sport
        Words for people.
    first_monday
        First day of week 1.
    weeks
        Length of the season.
    fixtures_file
        A .csv or .ics file, looked for beside the scenario.
    fixtures
        Fixtures written in the scenario itself; added to those of the file.
    priorities
        Priority by date, over what the fixtures say.
    breaks
        Days that are not like the others.
    practice, match, targets, readiness
        Tables of their own.
    phases
        If given, all of them, from week 1 on; left out, they follow from the fixtures.
    rates
        What one kind of miss costs against another.
    qualities
        Changes to the default ladders by key, and new ladders; checked when merged.
    order
        Keys of all qualities in the order wanted.
    rules
        Parameters by rule name; checked by the rules themselves.
    seed
        Same seed, same plan.
    squad_file
        The athletes, for cards.
    under_18
        Whether all who train are under 18; left out, it follows from the ages in the squad file.
        Then hours of school are kept free, 08:30 to 15:30 from Monday to Friday, and no sessions
        are on days in a row, unless ``[rules.spacing]`` says otherwise (``school``, also ``[]`` for
        none, and ``session_days``); hours are common practice, no source.
    groups
        Groups of the squad that have a plan of their own beside shared sessions.
    prescriptions, exercises
        Work by band code and exercises by key, over those of the library; checked for cards.
    kit
        What there is to load with; checked for cards.
    equipment
        What is there to train with, or what is not; checked for cards.
    preparation
        Standing work of every week, over the usual; checked for the days of a week.
    """

    name: str = Field(min_length=1, max_length=120)
    sport: str = Field(default="", max_length=60)
    first_monday: Monday
    weeks: int = Field(ge=1, le=MOST_WEEKS)
    fixtures_file: str | None = Field(default=None, min_length=1, max_length=1000)
    fixtures: tuple[Fixture, ...] = ()
    priorities: dict[dt.date, Priority] = Field(default_factory=dict)
    breaks: tuple[Break, ...] = ()
    phases: tuple[PhaseStart, ...] = ()
    practice: Practice = Practice()
    match: MatchSettings = MatchSettings()
    targets: TargetSettings = TargetSettings()
    readiness: ReadinessSettings = ReadinessSettings()
    rates: Rates = Rates()
    qualities: dict[str, dict[str, Any]] = Field(default_factory=dict)
    order: tuple[str, ...] = ()
    rules: dict[str, dict[str, Any]] = Field(default_factory=dict)
    seed: int = Field(default=0, ge=0, le=2**31 - 1)
    squad_file: str | None = Field(default=None, min_length=1, max_length=1000)
    under_18: bool | None = None
    groups: dict[Group, GroupSettings] = Field(default_factory=dict)
    prescriptions: dict[str, Any] = Field(default_factory=dict)
    exercises: dict[str, Any] = Field(default_factory=dict)
    kit: dict[str, Any] = Field(default_factory=dict)
    equipment: dict[str, Any] = Field(default_factory=dict)
    preparation: dict[str, Any] = Field(default_factory=dict)

    @property
    def speaks_of_school(self) -> bool:
        """Tell whether hours of school are given, or said not to be kept."""
        return any("school" in table for table in self.rules.values())

    @model_validator(mode="after")
    def _check_phases(self) -> Self:
        starts = [start.first_week for start in self.phases]
        if starts and starts[0] != 1:
            raise ValueError(
                f"phases must begin with first_week = 1 (got {starts[0]}); "
                "say which phase the season opens in"
            )
        if any(later <= earlier for earlier, later in pairwise(starts)):
            raise ValueError(f"phases must start in rising weeks (got {starts}); put them in order")
        return self

    @model_validator(mode="after")
    def _check_weeks(self) -> Self:
        named = {
            "phases": [start.first_week for start in self.phases],
            "practice.by_week": list(self.practice.by_week),
            "targets.by_week": list(self.targets.by_week),
        }
        for where, weeks in named.items():
            out = [week for week in weeks if not 1 <= week <= self.weeks]
            if out:
                raise ValueError(
                    f"{where} must lie in weeks 1 to {self.weeks} (got week {out[0]}); "
                    "change it or lengthen the season"
                )
        return self

    @model_validator(mode="after")
    def _check_groups(self) -> Self:
        dates = {name: group.back for name, group in self.groups.items() if group.back is not None}
        if dates and len(dates) == len(self.groups):
            raise ValueError(
                f"groups must have one that trains from week 1 (got {', '.join(dates)}, all with "
                "back); add [groups.starters]"
            )
        # it joins on a Monday, so the last one is the latest day to come back on
        last = self.first_monday + dt.timedelta(weeks=self.weeks - 1)
        for name, day in dates.items():
            if not self.first_monday <= day <= last:
                raise ValueError(
                    f"groups.{name}.back must lie in {self.first_monday} to {last}, the last "
                    f"Monday (got {day}); correct the date"
                )
        return self

    @property
    def last_day(self) -> dt.date:
        """Return the last Sunday."""
        return self.first_monday + dt.timedelta(days=7 * self.weeks - 1)
