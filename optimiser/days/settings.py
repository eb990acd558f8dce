"""What decides where in a week a session may stand."""

import datetime as dt
from typing import Self

from pydantic import Field, model_validator

from optimiser.domain.strict import Strict
from optimiser.domain.weekday import Weekday


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

    @model_validator(mode="after")
    def _check_window(self) -> Self:
        if self.latest < self.earliest:
            raise ValueError(
                f"latest must not come before earliest (got {self.earliest} and {self.latest}); "
                "swap them"
            )
        return self

    @property
    def apart(self) -> int:
        """Return the days apart at which two days can never disturb each other."""
        return max(-(-self.hard_hours // 24), self.jump_days, self.session_days, self.speed_days)


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
