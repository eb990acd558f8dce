"""What decides where in a week a session may stand."""

import datetime as dt
from typing import Any, Self

from pydantic import Field, field_validator, model_validator

from optimiser.domain.quality import Place
from optimiser.domain.strict import Strict
from optimiser.domain.weekday import Weekday

#: Hours of school from Monday to Friday where they are not known (common practice, no source).
SCHOOL = (dt.time(8, 30), dt.time(15, 30))
#: Least days from one day with a session to the next where under-18s train: not in a row
#: (Lloyd et al. 2014, British Journal of Sports Medicine 48(7): 498-505, of resistance training).
YOUNG_DAYS = 2


class DaySettings(Strict):
    """Spacing of a week's sessions. Days apart are date differences.

    Parameters
    ----------
    hours_since, hours_until
        Least hours of hard leg work from the end of a match and to the next kick-off. Where no
        kick-off is known, started days of 24 h are counted by date.
    hard_hours
        Least hours from one day of hard leg work to the next, in started days.
    recovery_days, primer_days
        Days after a match without a session; days before one with a primer at most.
    primer_minutes
        Longest primer: touches only, field or gym.
    jump_days
        Least days from one day with jumps to the next.
    session_days
        Least days from one day with a session to the next; 2 where under-18s train, so that their
        days are not in a row.
    speed_days
        Least days from hard leg work to top speed; on one day, top speed comes first.
    rest_days
        Weekdays without a session.
    doubles
        Most days of a week with a field and a gym session.
    same_day_hours
        Least hours between two sessions of one day, unless field comes first; told to the coach.
    earliest, latest
        First and last start of a session.
    match_minutes
        From kick-off to the end of a match.
    closes
        When the last session of a day is over.
    usual
        Start that sessions and placed practice keep near, other things equal.
    field_at, gym_at
        Start of every field or gym session, where it is given; also outside of ``earliest`` and
        ``latest``.
    school
        From when to when no session may be held from Monday to Friday; ``[]`` for no such hours.
    day_minutes, day_load
        Most minutes and AU of a day with practice and own work (engineering choice). Practice by
        itself may take more; nothing is then added to it.
    load_before_1, load_before_2
        Most AU of the last day and the last but one before a match, in the same way (engineering
        choice; least load on the eve: Silva H. et al. 2023, SCJ 45(5):568-77).
    travel_day_hours
        One-way travel from which the day before a match is one of travel, without a session.
    room_minutes, room_work
        How long a session the hours of a day must hold for planning to count on it, warm-up and
        standing work included, and how many of these minutes are the plan's own work.
    """

    hours_since: int = Field(default=48, ge=0, le=168)
    hours_until: int = Field(default=48, ge=0, le=168)
    hard_hours: int = Field(default=48, ge=0, le=96)
    recovery_days: int = Field(default=1, ge=0, le=3)
    primer_days: int = Field(default=1, ge=0, le=3)
    primer_minutes: int = Field(default=25, ge=0, le=60)
    jump_days: int = Field(default=2, ge=1, le=4)
    session_days: int = Field(default=1, ge=1, le=3)
    speed_days: int = Field(default=2, ge=1, le=4)
    rest_days: tuple[Weekday, ...] = Field(default=(Weekday.SUNDAY,), max_length=7)
    doubles: int = Field(default=2, ge=0, le=7)
    same_day_hours: int = Field(default=6, ge=0, le=12)
    earliest: dt.time = dt.time(8)
    latest: dt.time = dt.time(20)
    match_minutes: int = Field(default=120, ge=0, le=720)
    closes: dt.time = dt.time(22)
    usual: dt.time = dt.time(10)
    field_at: dt.time | None = None
    gym_at: dt.time | None = None
    school: tuple[dt.time, dt.time] | None = None
    day_minutes: int = Field(default=180, ge=30, le=720)
    day_load: int = Field(default=900, ge=100, le=5000)
    load_before_1: int = Field(default=300, ge=0, le=5000)
    load_before_2: int = Field(default=640, ge=0, le=5000)
    travel_day_hours: float = Field(default=6, ge=0.5, le=48)
    room_minutes: int = Field(default=65, ge=10, le=180)
    room_work: int = Field(default=45, ge=5, le=180)

    @field_validator("school", mode="before")
    @classmethod
    def _check_school(cls, given: Any) -> Any:
        return None if given == [] else given

    @model_validator(mode="after")
    def _check_window(self) -> Self:
        if self.latest < self.earliest:
            raise ValueError(
                f"latest must not come before earliest (got {self.earliest} and {self.latest}); "
                "swap them"
            )
        if self.closes <= self.latest:
            raise ValueError(
                f"closes must come after latest, the last start of a session (got {self.closes} "
                f"and {self.latest}); move one of them"
            )
        if self.school and self.school[1] <= self.school[0]:
            raise ValueError(
                f"school must be from when to when (got {self.school[0]} and {self.school[1]}); "
                "swap them"
            )
        return self

    @property
    def apart(self) -> int:
        """Return the days apart at which two days can never disturb each other."""
        return max(-(-self.hard_hours // 24), self.jump_days, self.session_days, self.speed_days)

    @property
    def opens(self) -> dt.time:
        """Return the first start of a session, given starts among them."""
        return min(at for at in (self.earliest, self.field_at, self.gym_at) if at is not None)

    @property
    def shuts(self) -> dt.time:
        """Return the last start of a session, given starts among them."""
        return max(at for at in (self.latest, self.field_at, self.gym_at) if at is not None)

    def given(self, place: Place) -> dt.time | None:
        """Return the start that all sessions of a place are given."""
        return self.field_at if place == "field" else self.gym_at

    def most_load(self, until: int | None) -> int:
        """Return the most AU of a day that is ``until`` days before the next match."""
        return {1: self.load_before_1, 2: self.load_before_2}.get(until or 0, self.day_load)


class SessionLimits(Strict):
    """How much one session holds, as far as it can be helped.

    Parameters
    ----------
    field_minutes, gym_minutes
        Longest session.
    pieces
        Most qualities in one.
    """

    field_minutes: int = Field(default=45, ge=1, le=600)
    gym_minutes: int = Field(default=60, ge=1, le=600)
    pieces: int = Field(default=3, ge=1, le=12)
