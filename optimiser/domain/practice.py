"""Team practice: how much of it there is in a phase, and when."""

import datetime as dt
from typing import Annotated, Any, Literal, Self

from pydantic import Field, field_validator, model_validator

from optimiser.domain.phase import Phase
from optimiser.domain.strict import Strict
from optimiser.domain.weekday import Weekday

Percent = Annotated[int, Field(ge=0, le=150)]


class PracticeWeek(Strict):
    """Team practice in a usual week of a phase.

    Parameters
    ----------
    sessions
        Practices a week.
    minutes
        Length of one.
    rpe
        Session rating, 0-10; load is sessions x minutes x rpe, in AU.
    days
        Weekdays, first choice first; left out, they follow from the matches. Given without
        ``sessions``, one practice on each.
    times
        Starts: one for every day of ``days``, or one for each of them in turn; left out, practice
        is placed around the matches and the plan's own work.
    field
        Where field work of the same day goes: ``before``, straight before practice at the
        earliest, or ``within``, as the first part of practice.
    """

    sessions: int = Field(default=2, ge=0, le=14)
    minutes: float = Field(default=75, ge=0, le=300)
    rpe: float = Field(default=5, ge=0, le=10)
    days: tuple[Weekday, ...] = Field(default=(), max_length=7)
    times: tuple[dt.time, ...] = Field(default=(), max_length=7)
    field: Literal["before", "within"] = "before"

    @model_validator(mode="before")
    @classmethod
    def _count_days(cls, given: Any) -> Any:
        days = given.get("days") if isinstance(given, dict) else None
        if isinstance(days, list | tuple) and days:
            return {"sessions": len(days), **given}
        return given

    @field_validator("days")
    @classmethod
    def _check_days(cls, days: tuple[Weekday, ...]) -> tuple[Weekday, ...]:
        twice = [day.value for day in days if days.count(day) > 1]
        if twice:
            raise ValueError(f"every weekday may come once (got {twice[0]} twice); take one out")
        return days

    @model_validator(mode="after")
    def _check_times(self) -> Self:
        if self.times and len(self.times) not in (1, len(self.days)):
            raise ValueError(
                f"times must be one start, or one for each of days (got {len(self.times)} for "
                f"{len(self.days)} days); write days and times in the same order"
            )
        if self.times and not self.days:
            raise ValueError(
                f"times go with days (got {self.times[0]:%H:%M} and no day); "
                'add days, such as days = ["tuesday", "thursday"]'
            )
        return self

    def start(self, day: Weekday) -> dt.time | None:
        """Return when practice starts on a weekday, where that is given."""
        if not self.times or day not in self.days:
            return None
        return self.times[self.days.index(day) if len(self.times) > 1 else 0]

    def load(self, sessions: int) -> int:
        """Return the load of ``sessions`` practices, in AU."""
        return round(sessions * self.minutes * self.rpe)


class Practice(Strict):
    """Team practice by phase.

    Parameters
    ----------
    off_season, pre_season, in_season
        A usual week of each phase.
    by_week
        Load of single weeks (from 1), in AU; it beats the phase's number.
    climb
        Per cent of a usual week in the first weeks of pre-season and after two or more closed
        weeks. Engineering choice.
    ease
        Per cent of a usual week in the week of a high fixture: a taper speaks of all training
        (Bosquet et al. 2007, MSSE 39(8):1358-65); how much of it is practice's share is an
        engineering choice.
    """

    off_season: PracticeWeek = PracticeWeek(sessions=0)
    pre_season: PracticeWeek = PracticeWeek(sessions=3)
    in_season: PracticeWeek = PracticeWeek(sessions=2)
    climb: tuple[Percent, ...] = Field(default=(40, 60, 75, 90), max_length=12)
    ease: Percent = 70
    by_week: dict[int, int] = Field(default_factory=dict)

    @field_validator("by_week")
    @classmethod
    def _check_loads(cls, by_week: dict[int, int]) -> dict[int, int]:
        for week, load in by_week.items():
            if not 0 <= load <= 20000:
                raise ValueError(f"load of week {week} must be 0 to 20000 AU (got {load})")
        return by_week

    def of(self, phase: Phase) -> PracticeWeek:
        """Return the usual week of ``phase``."""
        return {
            Phase.OFF: self.off_season,
            Phase.PRE: self.pre_season,
            Phase.IN: self.in_season,
        }[phase]
