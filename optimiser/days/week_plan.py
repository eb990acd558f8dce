"""A week day by day, as plain data."""

import datetime as dt
from collections.abc import Sequence
from typing import Literal

from pydantic import Field

from optimiser.athlete.week_load import WeekLoad
from optimiser.days.day import Kind
from optimiser.domain.quality import Place
from optimiser.domain.season import Phase
from optimiser.domain.strict import Strict


class PlannedWork(Strict):
    """One quality's part of a session.

    Parameters
    ----------
    quality
        Key.
    part, parts
        Which of how many parts of the week's work this is, from 1.
    load
        In AU.
    """

    quality: str
    name: str
    code: str
    label: str
    dose: str
    part: int = Field(default=1, ge=1)
    parts: int = Field(default=1, ge=1)
    minutes: int
    load: int

    @property
    def words(self) -> str:
        """Return it in a few words."""
        part = f" ({self.part} of {self.parts})" if self.parts > 1 else ""
        return f"{self.name} {self.code} {self.dose}{part}"


class SessionPlan(Strict):
    """A field or gym session, its work in the order it is done.

    Parameters
    ----------
    minutes
        Of all of it: warm-up, the plan's own work and the standing work at the end.
    load
        Of the plan's own work, in AU.
    standing
        Kinds of standing work in it.
    warm_up, finish
        Minutes of the warm-up and of the standing work at the end.
    hard
        True if it holds hard work for the legs.
    start_from, start_by
        Bounds of its start that a match sets, "HH:MM"; None where there is none.
    start
        "HH:MM"; None where the hours of the day leave no start.
    """

    place: Place
    work: tuple[PlannedWork, ...]
    minutes: int
    load: int
    hard: bool
    standing: tuple[str, ...] = ()
    warm_up: int = 0
    finish: int = 0
    start_from: str | None = None
    start_by: str | None = None
    start: str | None = None

    @property
    def end(self) -> str | None:
        """Return when it is over, "HH:MM"."""
        return end_of(self.start, self.minutes)


class MatchInfo(Strict):
    """A match on a day.

    Parameters
    ----------
    load
        In AU.
    share
        Share of its minutes that the group plays, where the plan is that of a group.
    listed
        Of a day with several matches, each as it was listed.
    """

    opponent: str
    competition: str
    kickoff: str | None
    venue: str
    priority: str
    load: int
    share: float | None = None
    listed: tuple["MatchInfo", ...] = ()

    @property
    def each(self) -> tuple["MatchInfo", ...]:
        """Return every match of the day."""
        return self.listed or (self,)


class PracticeInfo(Strict):
    """Team practice on a day.

    Parameters
    ----------
    minutes
        None where only its load is known.
    start
        "HH:MM"; None where the hours of the day leave no start.
    given
        True if a person gave its day and start.
    """

    minutes: int | None
    load: int
    start: str | None = None
    given: bool = False

    @property
    def end(self) -> str | None:
        """Return when it is over, "HH:MM"."""
        return end_of(self.start, self.minutes or 0)


def end_of(start: str | None, minutes: int) -> str | None:
    """Return "HH:MM" so many minutes after a start."""
    if start is None:
        return None
    hours, rest = start.split(":")
    at = 60 * int(hours) + int(rest) + minutes
    return f"{at // 60 % 24:02d}:{at % 60:02d}"


class DayPlan(Strict):
    """One day.

    Parameters
    ----------
    label
        MD, MD-n, MD+n, or nothing far from any match.
    load
        Of everything on the day, in AU.
    """

    date: dt.date
    weekday: str
    label: str
    kind: Kind
    match: MatchInfo | None = None
    practice: PracticeInfo | None = None
    sessions: tuple[SessionPlan, ...] = ()
    load: int = 0


class WeekMinutes(Strict):
    """Minutes of a week's field and gym sessions.

    Parameters
    ----------
    own
        Of the plan's own work, which rules and doses count.
    beside
        Of warm-ups and standing work.
    """

    own: int = Field(default=0, ge=0)
    beside: int = Field(default=0, ge=0)

    @property
    def total(self) -> int:
        """Return what the sessions take, as on cards."""
        return self.own + self.beside

    @property
    def words(self) -> str:
        """Return them in words; nothing without sessions."""
        if not self.total:
            return ""
        told = (
            f"{self.own} of own work, which AU count, {self.beside} of warm-ups and standing work"
        )
        return f"Sessions {self.total} min: {told}."


def week_minutes(days: Sequence["DayPlan"]) -> WeekMinutes:
    """Return the minutes of all sessions of some days."""
    sessions = [session for day in days for session in day.sessions]
    own = sum(work.minutes for session in sessions for work in session.work)
    return WeekMinutes(own=own, beside=sum(each.minutes for each in sessions) - own)


class OwnTime(Strict):
    """Something of the squad's that falls in hours of school, for those who are there.

    Parameters
    ----------
    squad
        When the squad begins, "HH:MM".
    start
        When they do it by themselves; None where there is no other time.
    """

    date: dt.date
    use: Literal["field", "gym", "practice"]
    squad: str
    start: str | None = None


class WeekPlan(Strict):
    """Seven days.

    Parameters
    ----------
    week
        From 1.
    load
        Of the seven days; its monotony and strain describe the week and are no limits.
    minutes
        Of its sessions.
    faults
        Spacings that could not be kept, in words.
    own_times
        Of under-18s among adults, who are at school while the squad trains.
    """

    format: Literal["seasonwright.week/1"] = "seasonwright.week/1"
    week: int = Field(ge=1)
    monday: dt.date
    phase: Phase
    days: tuple[DayPlan, ...] = Field(min_length=7, max_length=7)
    load: WeekLoad
    minutes: WeekMinutes = WeekMinutes()
    faults: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    own_times: tuple[OwnTime, ...] = ()

    def minutes_of(self, own: OwnTime) -> int:
        """Return how long what somebody does in a time of their own takes."""
        day = next(day for day in self.days if day.date == own.date)
        return sum(each.minutes for each in day.sessions if each.place == own.use)

    def own_time(self, date: dt.date, use: str) -> OwnTime | None:
        """Return the time of their own that those at school have for something of a day."""
        found = (each for each in self.own_times if (each.date, each.use) == (date, use))
        return next(found, None)
