"""What it would mean to have a week's sessions on other days: each day is tried."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from itertools import pairwise
from typing import Literal

from optimiser.days.faults import REASONS
from optimiser.days.holds import DayHold
from optimiser.days.week import WeekMaker
from optimiser.days.week_plan import DayPlan, WeekPlan
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Place

Verdict = Literal["not possible", "breaks", "liked less", "as good"]
#: From this difference on, sessions of one week are called uneven, in minutes.
UNEVEN = 20


@dataclass(frozen=True)
class OtherDay:
    """One session on another day.

    Parameters
    ----------
    why
        What it would break, or what is liked less.
    """

    date: date
    label: str
    verdict: Verdict
    why: tuple[str, ...] = ()


@dataclass(frozen=True)
class SessionDays:
    """A session, and what other days would mean.

    Parameters
    ----------
    asked
        True if a person asked for this day.
    """

    place: Place
    date: date
    label: str
    asked: bool
    others: tuple[OtherDay, ...]


def other_days(maker: WeekMaker, plan: Plan, index: int) -> list[SessionDays]:
    """Return what other days would mean for each session of week ``index`` (from 0).

    Each is asked for in turn and the week put on its days again, with as little moved as can be.
    """
    week = maker.week(plan, index)
    asked = {(hold.thing, hold.day) for hold in maker.holds.get(index, ()) if hold.on}
    return [
        SessionDays(
            session.place,
            day.date,
            day.label,
            (session.place, at) in asked,
            tuple(_tried(maker, plan, index, week, session.place, at)),
        )
        for at, day in enumerate(week.days)
        for session in day.sessions
    ]


def _tried(
    maker: WeekMaker, plan: Plan, index: int, week: WeekPlan, place: Place, at: int
) -> Iterator[OtherDay]:
    for other, day in enumerate(week.days):
        if other == at or _has(day, place):
            continue
        if any(hold == DayHold(place, other, on=False) for hold in maker.holds.get(index, ())):
            yield OtherDay(day.date, day.label, "not possible", ("it was asked to be free of it",))
            continue
        if day.kind in REASONS:
            yield OtherDay(day.date, day.label, "not possible", (REASONS[day.kind],))
            continue
        holds = [DayHold(place, at, on=False), DayHold(place, other)]
        yield _other(week, maker.week(plan, index, holds=holds), other, place)


def _other(week: WeekPlan, found: WeekPlan, at: int, place: Place) -> OtherDay:
    day = found.days[at]
    if not _has(day, place):
        return OtherDay(day.date, day.label, "not possible", ("the day leaves no room for it",))
    broken = [fault for fault in found.faults if fault not in week.faults]
    if broken:
        return OtherDay(day.date, day.label, "breaks", tuple(broken))
    less = _remarks(found) - _remarks(week)
    verdict: Verdict = "liked less" if less else "as good"
    return OtherDay(day.date, day.label, verdict, tuple(less))


def _has(day: DayPlan, place: Place) -> bool:
    return any(session.place == place for session in day.sessions)


def _remarks(week: WeekPlan) -> Counter[str]:
    """Return what is liked less about a week's days, in words."""
    found: Counter[str] = Counter()
    for day in week.days:
        found.update(_of_day(day))
    gyms = [day for day in week.days if _has(day, "gym")]
    pairs = [pair for pair in pairwise(gyms) if (pair[1].date - pair[0].date).days == 1]
    found.update(f"gym on {a.date:%A} and {b.date:%A}, two days in a row" for a, b in pairs)
    for place in ("field", "gym"):
        minutes = [s.minutes for day in week.days for s in day.sessions if s.place == place]
        if minutes and max(minutes) - min(minutes) > UNEVEN:
            found[f"{place} sessions of unequal length"] += 1
    return found


def _of_day(day: DayPlan) -> Iterator[str]:
    name = f"{day.date:%A}"
    if len(day.sessions) > 1:
        yield f"field and gym both on {name}"
    if day.practice and _has(day, "gym"):
        yield f"gym on {name}, a day of team practice"
    if not day.practice and _has(day, "field"):
        yield f"field work on {name}, away from team practice"
    if any(session.hard for session in day.sessions) and day.label:
        yield f"hard leg work on {name}, {day.label}"
    elif day.sessions and day.label in ("MD-1", "MD-2"):
        yield f"work on {name}, {day.label}"
    if day.practice:
        yield f"team practice on {name}"
