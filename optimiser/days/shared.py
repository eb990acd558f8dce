"""One week of several squads on ground, rooms and staff that they share."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from ortools.sat.python import cp_model

from optimiser.days.clock import ClockItem
from optimiser.days.day import DAY
from optimiser.days.linear import Linear, total
from optimiser.days.placing import Placed, Task
from optimiser.days.timetable import RATHER, SquadWeek, placed_of, solver_of, squad_week
from optimiser.engine.interrupts import solve_or_raise

#: CP-SAT's own seconds for one week of all squads.
EFFORT = 0.3
#: The same for what can be kept at all on any days: of weeks that have room, few need a half.
EFFORT_TO_KEEP = 0.6
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
    tasks: Sequence[Task],
    alone: Sequence[Placed],
    pools: Sequence[Pool],
    weights: Sequence[int],
    *,
    liked: bool = True,
) -> Shared:
    """Return the best timetable of one week for all squads together.

    What each squad would do alone costs least; if it fits together it is the answer, and proves
    itself. Else all squads are one model, in which every pool holds so many at once: on the days
    that each has alone first, and on any days where that moves hours far or breaks something; what
    cannot be kept is made least first, then what is liked less. No way to share costs less than
    the squads alone do together, so that is a bound.

    Parameters
    ----------
    weights
        Of each squad; who weighs less gives way.
    liked
        False if only what can be kept is asked for: what is liked less is then as it comes.
    """
    least = sum(w * placed.cost for w, placed in zip(weights, alone, strict=True))
    if not clashes(bookings(tasks, alone), pools):
        return Shared(tuple(alone), least, least, joint=False)
    held = _Joint(tasks, alone, pools, weights, held=True)
    near = held.cheapest(most=least + HOURS_ONLY * sum(weights))
    if near is not None:
        return near._replace(bound=least)
    found = _Joint(tasks, alone, pools, weights, held=False).best(liked=liked)
    if found is None:  # what nothing fits in has no hours: that always is a way
        found = held.cheapest()
    if found is None:
        raise RuntimeError("no timetable was found in the effort that ends a search for one")
    return found._replace(bound=max(least, found.bound))


class _Joint:
    """All squads in one model, on the days of a start or on any.

    Parameters
    ----------
    held
        True for the days of the start.
    """

    def __init__(
        self,
        tasks: Sequence[Task],
        start: Sequence[Placed],
        pools: Sequence[Pool],
        weights: Sequence[int],
        *,
        held: bool,
    ) -> None:
        self.model = cp_model.CpModel()
        self.weeks = [
            squad_week(self.model, task, {"field": each.field, "gym": each.gym} if held else None)
            for task, each in zip(tasks, start, strict=True)
        ]
        for pool in pools:
            _post(self.model, pool, self.weeks)
        for week, placed in zip(self.weeks, start, strict=True):
            _hint(self.model, week, placed)
        pairs = list(zip(weights, self.weeks, strict=True))
        self.broken = total(w * week.broken for w, week in pairs)
        self.objective = total(w * week.objective for w, week in pairs)

    def cheapest(self, most: int | None = None) -> Shared | None:
        """Return the best found; None if none is, or none costs so little."""
        if most is not None:
            self.model.add(self.objective <= most)
        solver = self._solved(self.objective)
        return None if solver is None else self._read(solver)

    def best(self, *, liked: bool) -> Shared | None:
        """Return what breaks least, and is liked best of that; None if nothing was found."""
        solver = self._solved(self.broken, EFFORT_TO_KEEP)
        if solver is None:
            return None
        least, bound = round(solver.objective_value), round(solver.best_objective_bound)
        found = self._read(solver)._replace(bound=bound)
        if not liked:
            return found
        self._stay_at(solver)
        self.model.add(self.broken <= least)
        better = self._solved(self.objective)
        if better is None:
            return found
        # whatever breaks more than the least costs a spacing more at least
        proven = min(round(better.best_objective_bound), bound + RATHER)
        return self._read(better)._replace(bound=proven if bound == least else bound)

    def _solved(self, objective: Linear, effort: float = EFFORT) -> cp_model.CpSolver | None:
        self.model.minimize(objective)
        solver = solver_of(effort)
        status = solve_or_raise(solver, self.model)
        return solver if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else None

    def _stay_at(self, solver: cp_model.CpSolver) -> None:
        """Begin the next search with what this one found."""
        self.model.clear_hints()  # type: ignore[no-untyped-call]
        for number, value in enumerate(solver.response_proto.solution):
            self.model.add_hint(self.model.get_int_var_from_proto_index(number), value)

    def _read(self, solver: cp_model.CpSolver) -> Shared:
        found = tuple(placed_of(week, solver) for week in self.weeks)
        cost = round(solver.value(self.objective))
        return Shared(found, cost, round(solver.best_objective_bound), joint=True)


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


def _items(week: SquadWeek, day: int) -> list[tuple[str, ClockItem]]:
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


def free_in(booked: Sequence[Booking], pool: Pool, day: int, start: int, end: int) -> bool:
    """Tell whether some of a squad can be in a pool by themselves, beside all squads.

    Parameters
    ----------
    start, end
        Minutes of the day.
    """
    first, last = DAY * day + start, DAY * day + end
    here = [each for each in booked if pool.takes(each.squad, each.use)]
    there = [each for each in here if each.start < last and each.end > first]
    at_once = (sum(other.start <= each.start < other.end for other in there) for each in there)
    return pool.opens <= start and end <= pool.closes and max(at_once, default=0) < pool.holds


def hours_in(booked: Sequence[Booking], pool: Pool) -> float:
    """Return the hours that a pool is taken for, one squad's hour counted as one."""
    minutes = sum(b.end - b.start for b in booked if pool.takes(b.squad, b.use))
    return minutes / 60
