"""One week of several squads on ground, rooms and staff that they share."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from ortools.sat.python import cp_model

from optimiser.days.clock import Item
from optimiser.days.day import DAY
from optimiser.days.linear import total
from optimiser.days.placing import Placed, Task
from optimiser.days.timetable import SquadWeek, placed_of, solver_of, squad_week
from optimiser.engine.interrupts import solve_or_raise

#: CP-SAT's own seconds for one week of all squads.
EFFORT = 0.3
#: Where squads on their own days cost so little more, in hundredths each, only hours have moved:
#: two hours from the usual start, which no other days are looked for.
HOURS_ONLY = 120


@dataclass(frozen=True)
class Pool:
    """Something that squads share.

    Parameters
    ----------
    uses
        What takes place in it or needs it: field, gym, practice.
    holds
        Squads at once.
    opens, closes
        Minutes of the day.
    squads
        Squads it is for, by number; empty for all.
    """

    name: str
    uses: frozenset[str]
    holds: int = 1
    opens: int = 0
    closes: int = DAY
    squads: frozenset[int] = frozenset()

    def takes(self, squad: int, use: str) -> bool:
        """Tell whether something of a squad needs it."""
        return use in self.uses and (not self.squads or squad in self.squads)


class Shared(NamedTuple):
    """A week of all squads.

    Parameters
    ----------
    cost, bound
        Of all squads together, faults first and weighted by priority; no timetable costs less
        than ``bound``.
    joint
        True if what each squad would do alone did not fit together.
    """

    placed: tuple[Placed, ...]
    cost: int
    bound: int
    joint: bool

    @property
    def proven(self) -> bool:
        """Return True if no timetable of the week is better."""
        return self.cost <= self.bound


class Booking(NamedTuple):
    """Something that takes place: whose, what, and when, in minutes from Monday."""

    squad: int
    use: str
    start: int
    end: int


def share_week(
    tasks: Sequence[Task], alone: Sequence[Placed], pools: Sequence[Pool], weights: Sequence[int]
) -> Shared:
    """Return the best timetable of one week for all squads together.

    What each squad would do alone costs least; if it fits together it is the answer, and proves
    itself. Else all squads are one model, in which every pool holds so many at once: on the days
    that each has alone first, and on any days where that moves hours far or breaks something. No
    way to share costs less than the squads alone do together, so that is a bound.

    Parameters
    ----------
    weights
        Of each squad; who weighs less gives way.
    """
    if not clashes(bookings(tasks, alone), pools):
        cost = sum(w * p.cost for w, p in zip(weights, alone, strict=True))
        return Shared(tuple(alone), cost, cost, joint=False)
    least = sum(w * placed.cost for w, placed in zip(weights, alone, strict=True))
    timed = _solved(tasks, alone, pools, weights, held=True)
    if timed is not None and timed.cost - least <= HOURS_ONLY * sum(weights):
        return timed._replace(bound=least)
    found = _solved(tasks, timed.placed if timed else alone, pools, weights, held=False)
    best = min((each for each in (timed, found) if each is not None), key=lambda each: each.cost)
    return best._replace(bound=max(least, found.bound if found else least))


def _solved(
    tasks: Sequence[Task],
    start: Sequence[Placed],
    pools: Sequence[Pool],
    weights: Sequence[int],
    *,
    held: bool,
) -> Shared | None:
    """Return the best found from a start, on its days or on any; None if none was found."""
    model = cp_model.CpModel()
    weeks = [
        squad_week(model, task, {"field": each.field, "gym": each.gym} if held else None)
        for task, each in zip(tasks, start, strict=True)
    ]
    for pool in pools:
        _post(model, pool, weeks)
    model.minimize(total(w * week.objective for w, week in zip(weights, weeks, strict=True)))
    for week, placed in zip(weeks, start, strict=True):
        _hint(model, week, placed)
    solver = solver_of(EFFORT)
    status = solve_or_raise(solver, model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    found = tuple(placed_of(week, solver) for week in weeks)
    bound = round(solver.best_objective_bound)
    return Shared(found, round(solver.objective_value), bound, joint=True)


def _post(model: cp_model.CpModel, pool: Pool, weeks: Sequence[SquadWeek]) -> None:
    """Hold a pool to what it takes at once, and what is in it to its hours."""
    for day in range(7):
        items = [
            item
            for squad, week in enumerate(weeks)
            for use, item in _items(week, day)
            if pool.takes(squad, use)
        ]
        if items:
            model.add_cumulative([item.interval for item in items], [1] * len(items), pool.holds)
        for item in items:
            model.add(item.start >= pool.opens).only_enforce_if(item.timed)
            model.add(item.end <= pool.closes).only_enforce_if(item.timed)


def _items(week: SquadWeek, day: int) -> list[tuple[str, Item]]:
    found = [(slot[0], item) for slot, item in week.hours.sessions.items() if slot[1] == day]
    practice = week.hours.practice.get(day)
    return [*found, *([("practice", practice)] if practice else [])]


def _hint(model: cp_model.CpModel, week: SquadWeek, placed: Placed) -> None:
    for slot, held in week.decisions.held.items():
        model.add_hint(held, slot in placed.clock.starts)
    for day, on in week.decisions.practice.items():
        model.add_hint(on, day in placed.clock.practice)


def bookings(tasks: Sequence[Task], placed: Sequence[Placed]) -> list[Booking]:
    """Return everything that has hours in a week, by start."""
    found = []
    for squad, (task, week) in enumerate(zip(tasks, placed, strict=True)):
        for put, use in ((week.field, "field"), (week.gym, "gym")):
            for day, held in zip(put.days, put.spread.sessions, strict=True):
                start = next(a for (p, d), a in week.clock.starts.items() if (p, d) == (use, day))
                if start is not None:
                    at = DAY * day + start
                    found.append(Booking(squad, use, at, at + held.minutes + task.extra))
        for day, start in week.clock.practice.items():
            if start is not None:
                at = DAY * day + start
                found.append(Booking(squad, "practice", at, at + task.practices.minutes))
    return sorted(found, key=lambda each: (each.start, each.squad, each.use))


def clashes(booked: Sequence[Booking], pools: Sequence[Pool]) -> list[tuple[Pool, Booking]]:
    """Return what does not fit: more in a pool at once than it holds, or outside of its hours."""
    found = []
    for pool in pools:
        here = [each for each in booked if pool.takes(each.squad, each.use)]
        for each in here:
            at_once = sum(other.start <= each.start < other.end for other in here)
            day = each.start // DAY * DAY
            closed = each.start < day + pool.opens or each.end > day + pool.closes
            if at_once > pool.holds or closed:
                found.append((pool, each))
    return found


def hours_in(booked: Sequence[Booking], pool: Pool) -> float:
    """Return the hours that a pool is taken for, one squad's hour counted as one."""
    minutes = sum(b.end - b.start for b in booked if pool.takes(b.squad, b.use))
    return minutes / 60
