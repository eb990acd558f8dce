"""A week put on days and hours, exactly: a model of intervals for CP-SAT."""

from collections.abc import Sequence
from dataclasses import dataclass

from ortools.sat.python import cp_model

from optimiser.days.clock import Hours
from optimiser.days.day import DAY
from optimiser.days.decisions import PLACES, Decisions, Share
from optimiser.days.likes import costs
from optimiser.days.linear import Linear, total
from optimiser.days.pieces import Held, Spread, parted, unevenness
from optimiser.days.placing import Placed, Put, StartTimes, Task
from optimiser.days.spacings import Faults, post_ceilings, post_spacings
from optimiser.domain.quality import Place
from optimiser.engine.interrupts import solve_or_raise

#: A spacing that is not kept weighs more than anything that is liked less.
FAULT = 10_000_000
#: Of as many faults rather days that are too full than hard work on two in a row.
RATHER = FAULT // 16
#: Of CP-SAT's own seconds, a guard: a usual week takes a fiftieth.
EFFORT = 4.0
#: For each minute that a start is moved in a week of which a person asked something: twice what an
#: hour away from the usual start costs.
START_MOVED = 2


@dataclass(frozen=True)
class SquadWeek:
    """One squad's week in a model: its decisions, hours, and what they cost.

    Parameters
    ----------
    faults, spacings
        All that is not kept, and the spacings among it.
    likes, off_usual
        What is liked less of days, and of hours.
    """

    decisions: Decisions
    hours: Hours
    faults: Faults
    spacings: Faults
    likes: Linear
    off_usual: Linear

    @property
    def broken(self) -> Linear:
        """Return what all that is not kept costs."""
        return FAULT * total(self.faults) + RATHER * total(self.spacings)

    @property
    def objective(self) -> Linear:
        """Return what is made least: faults first, then what is liked less, hours last."""
        return self.broken + self.likes + self.off_usual


def squad_week(
    model: cp_model.CpModel, task: Task, held: dict[Place, Put] | None = None
) -> SquadWeek:
    """Put one squad's week into a model and return it."""
    decisions = Decisions(model, task, held)
    hours = Hours(decisions)
    spacings = post_spacings(decisions)
    faults = [*spacings, *post_ceilings(decisions), *hours.late, *_asked(decisions)]
    off_usual = [*hours.costs, *_starts_moved(decisions, hours)]
    likes = total(costs(decisions))
    return SquadWeek(decisions, hours, faults, spacings, likes, total(off_usual))


def _starts_moved(week: Decisions, hours: Hours) -> list[Linear]:
    """Return what it costs to start at another time than in the week that is to stay."""
    stay = week.task.stay
    if stay is None:
        return []
    pairs = [(hours.sessions.get(slot), at) for slot, at in stay.clock.starts.items()]
    pairs += [(hours.practice.get(day), at) for day, at in stay.clock.practice.items()]
    found: list[Linear] = []
    for item, at in pairs:
        if item is not None and at is not None:
            away = week.model.new_int_var(0, DAY, "")
            week.model.add(away >= item.start - at).only_enforce_if(item.timed)
            week.model.add(away >= at - item.start).only_enforce_if(item.timed)
            found.append(START_MOVED * away)
    return found


def _asked(week: Decisions) -> Faults:
    """Post what a person asks of the week."""
    found: Faults = []
    for hold in week.task.holds:
        if hold.thing == "practice":
            on = week.practice[hold.day]
        elif (hold.thing, hold.day) in week.held:
            on = week.held[hold.thing, hold.day]
        else:
            found.append(int(hold.on))
            continue
        found.append(1 - on if hold.on else on)
    return found


def place_week(task: Task, held: Placed | None = None) -> Placed:
    """Return the best days and starts of a week's sessions and practice.

    Spacings and hours come first, then what is liked less, then the earlier days: the same week is
    always placed alike. Where the rule `spacing` holds there is a way without faults.

    Parameters
    ----------
    held
        Days and shares of work that are settled; only practice and starts are then free.
    """
    # Without faults first: most weeks have such a way, and it is found in half the time.
    found = place_whole_week(task, held) or _placed(task, held, kept=False)
    if found is None:
        raise RuntimeError("no timetable was found in the effort that ends a search for one")
    return found


def place_whole_week(task: Task, held: Placed | None = None) -> Placed | None:
    """Return the best way without faults, as :func:`place_week` does; None if none was found."""
    return _placed(task, held, kept=True)


def _placed(task: Task, held: Placed | None, *, kept: bool) -> Placed | None:
    """Return the best way to keep everything, or to break as little as can be; None without."""
    puts: dict[Place, Put] | None = None if held is None else {"field": held.field, "gym": held.gym}
    model = cp_model.CpModel()
    week = squad_week(model, task, puts)
    if kept:
        model.add(total(week.faults) == 0)
    model.minimize(week.objective)
    solver = solver_of(EFFORT)
    status = solve_or_raise(solver, model)
    found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    return placed_of(week, solver) if found else None


def solver_of(effort: float, workers: int = 1) -> cp_model.CpSolver:
    """Return a solver of which runs repeat."""
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = workers
    solver.parameters.random_seed = 0
    # Rows of on and off with sums behind them: their relaxation is near, and a tenth of the time
    # is needed with all of it. Days without a match are nearly alike; to look for it does not pay.
    solver.parameters.linearization_level = 2
    solver.parameters.symmetry_level = 0
    # nor does much probing, or variables taken out of clauses: the hardest weeks take a third less
    solver.parameters.cp_model_probing_level = 1
    solver.parameters.presolve_bve_threshold = 0
    solver.parameters.max_deterministic_time = effort
    return solver


def placed_of(week: SquadWeek, solver: cp_model.CpSolver) -> Placed:
    """Return what a solver found for one squad."""
    puts = {place: _put(week.decisions, solver, place) for place in PLACES}
    hours = week.hours
    clock = StartTimes(
        {
            slot: int(solver.value(item.start)) if solver.value(item.timed) else None
            for slot, item in hours.sessions.items()
            if solver.value(item.held)
        },
        {
            day: int(solver.value(item.start)) if solver.value(item.timed) else None
            for day, item in hours.practice.items()
            if solver.value(item.held)
        },
    )
    faults = sum(int(solver.value(fault)) for fault in week.faults)
    cost = int(solver.value(week.objective))
    return Placed(puts["field"], puts["gym"], faults, clock, cost)


def _put(week: Decisions, solver: cp_model.CpSolver, place: Place) -> Put:
    days = [slot[1] for slot in week.slots(place) if solver.value(week.held[slot])]
    ways = tuple(_way(share, solver, days) for share in week.shares[place])
    pieces = week.task.pieces[place] if week.task.counts[place] else ()
    sessions = [Held()] * len(days)
    for piece, way in zip(pieces, ways, strict=True):
        for part, session in enumerate(way):
            sessions[session] = sessions[session].plus(piece, part, len(way))
    task = week.task
    cost = unevenness(tuple(sessions), task.longest(place), task.limits) + parted(pieces, ways)
    return Put(tuple(days), Spread(ways, tuple(sessions), cost))


def _way(share: Share, solver: cp_model.CpSolver, days: Sequence[int]) -> tuple[int, ...]:
    return tuple(
        at
        for variables in (share.whole, share.first, share.second)
        for at, day in enumerate(days)
        if day in variables and solver.value(variables[day])
    )
