"""One week of several groups on days that they share, as one exact model with practice in it.

The search over days (`together`) is quicker and knows no practice; where ceilings or hours are at
stake with it, this model is asked.
"""

from collections.abc import Sequence
from itertools import combinations

from ortools.sat.python import cp_model

from optimiser.days.decisions import PLACES, Share
from optimiser.days.linear import Linear, total
from optimiser.days.placing import Placed, Task, days_for
from optimiser.days.timetable import EFFORT, SquadWeek, placed_of, solver_of, squad_week
from optimiser.domain.quality import Place
from optimiser.engine.interrupts import solve_or_raise

#: A quality that two groups share out otherwise over the same days: more than all that is liked
#: less.
APART = 200_000


def surely_kept(tasks: Sequence[Task], placed: Sequence[Placed]) -> bool:
    """Tell, without a search, that practice on any day would break no ceiling of any group."""
    return all(map(_surely, tasks, placed))


def _surely(task: Task, placed: Placed) -> bool:
    practice, settings = task.practices, task.settings
    sums = {day.index: (0, 0) for day in task.days}
    for put in (placed.field, placed.gym):
        for day, held in zip(put.days, put.spread.sessions, strict=True):
            minutes, load = sums[day]
            sums[day] = minutes + held.minutes + task.extra, load + held.load
    at = {day for day in practice.order if practice.count}
    return all(
        not minutes
        or (
            minutes + practice.minutes * (day in at) <= settings.day_minutes
            and load + practice.load * (day in at) <= settings.most_load(task.days[day].until)
        )
        for day, (minutes, load) in sums.items()
    )


def kept_together(tasks: Sequence[Task], placed: Sequence[Placed]) -> bool:
    """Tell whether groups on these days keep everything, with practice on the same days for all."""
    model = cp_model.CpModel()
    weeks = [
        squad_week(model, task, {"field": each.field, "gym": each.gym})
        for task, each in zip(tasks, placed, strict=True)
    ]
    _practise_together(model, weeks)
    model.add(total(fault for week in weeks for fault in week.faults) == 0)
    return _solved(model) is not None


def place_jointly(tasks: Sequence[Task]) -> list[Placed] | None:
    """Return the best days on which groups that differ keep everything; None if there are none.

    Sessions of a place are on the same days for all, a group with fewer leaves some of them out;
    practice is on the same days; a quality is done in the same sessions by all so far as nothing
    would be broken for that.
    """
    model = cp_model.CpModel()
    weeks = [squad_week(model, task) for task in tasks]
    _practise_together(model, weeks)
    for place in PLACES:
        _on_same_days(model, weeks, place)
    apart = [each for place in PLACES for each in _apart(model, weeks, place)]
    model.add(total(fault for week in weeks for fault in week.faults) == 0)
    likes = total(week.likes + week.off_usual for week in weeks)
    model.minimize(likes + APART * total(apart))
    solver = _solved(model)
    return None if solver is None else [placed_of(week, solver) for week in weeks]


def _solved(model: cp_model.CpModel) -> cp_model.CpSolver | None:
    solver = solver_of(EFFORT)
    status = solve_or_raise(solver, model)
    return solver if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else None


def _practise_together(model: cp_model.CpModel, weeks: Sequence[SquadWeek]) -> None:
    first, *others = [week.decisions.practice for week in weeks]
    for other in others:
        for day, on in other.items():
            model.add(on == first[day])


def _on_same_days(model: cp_model.CpModel, weeks: Sequence[SquadWeek], place: Place) -> None:
    count = max(week.decisions.task.counts[place] for week in weeks)
    days = days_for(weeks[0].decisions.task, count) if count else []
    used = {day: model.new_bool_var("") for day in days}
    model.add(total(used.values()) == count)
    for week in weeks:
        for slot in week.decisions.slots(place):
            model.add_implication(week.decisions.held[slot], used[slot[1]])


def _apart(
    model: cp_model.CpModel, weeks: Sequence[SquadWeek], place: Place
) -> list[cp_model.IntVar]:
    """Return a variable for every quality that two groups share out otherwise."""
    found = []
    for one, other in combinations(weeks, 2):
        theirs = {share.piece.quality.key: share for share in other.decisions.shares[place]}
        for share in one.decisions.shares[place]:
            if (also := theirs.get(share.piece.quality.key)) is not None:
                apart = model.new_bool_var("")
                less, more = sorted((share, also), key=lambda each: each.piece.dose)
                _alike(model, less, more, apart)
                found.append(apart)
    return found


def _alike(model: cp_model.CpModel, less: Share, more: Share, apart: cp_model.IntVar) -> None:
    """Have the smaller share on days of the larger one; shares alike on the same days."""
    pairs = [(less, more)] if less.piece.dose < more.piece.dose else [(less, more), (more, less)]
    for inner, outer in pairs:
        for day in inner.whole:
            model.add(_on(inner, day) <= _on(outer, day) + apart)


def _on(share: Share, day: int) -> Linear:
    return total(on for on, _, _ in share.on(day))
