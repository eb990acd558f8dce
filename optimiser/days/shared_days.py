"""One week of several groups on days that they share, as one exact model with practice in it.

The search over days (`together`) is quicker and knows no practice; where ceilings or hours are at
stake with it, this model is asked.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations

from ortools.sat.python import cp_model

from optimiser.days.decisions import PLACES, Share
from optimiser.days.linear import Linear, total
from optimiser.days.placing import Placed, Task, days_for
from optimiser.days.practice import Practices
from optimiser.days.timetable import EFFORT, SquadWeek, placed_of, solver_of, squad_week
from optimiser.days.week import MOST_BESIDE
from optimiser.domain.quality import Place
from optimiser.engine.interrupts import solve_or_raise

#: A quality that two groups share out otherwise over the same days: more than all that is liked
#: less.
APART = 200_000


def kept_together(tasks: Sequence[Task], placed: Sequence[Placed]) -> bool:
    """Tell whether groups on these days keep everything, with practice on the same days for all."""
    model, weeks = _held_together(tasks, placed)
    model.add(total(fault for week in weeks for fault in week.faults) == 0)
    return _solved(model) is not None


def practice_days(tasks: Sequence[Task], placed: Sequence[Placed]) -> list[int]:
    """Return the days on which all groups practise together, best beside their sessions.

    None are told where they are given, groups do not practise as often, or no days keep all.
    """
    practices = [task.practices for task in tasks]
    if len({each.count for each in practices}) > 1 or _given(practices[0]):
        return []
    for asked in (roomy(tasks), tasks):
        model, weeks = _held_together(asked, placed)
        model.add(total(fault for week in weeks for fault in week.faults) == 0)
        model.minimize(total(week.likes + week.off_usual for week in weeks))
        solver = _solved(model)
        if solver is not None:
            on = weeks[0].decisions.practice
            return [day for day, var in on.items() if solver.value(var)]
    return []


def roomy(tasks: Sequence[Task]) -> list[Task]:
    """Return weeks with room for the longest warm-up and standing work that sessions can have."""
    return [replace(task, extra=max(task.extra, MOST_BESIDE)) for task in tasks]


def _given(practices: Practices) -> bool:
    return len(practices.fixed) == practices.count


def _held_together(
    tasks: Sequence[Task], placed: Sequence[Placed]
) -> tuple[cp_model.CpModel, list[SquadWeek]]:
    """Return a model of groups on their days, with practice on the same days for all."""
    model = cp_model.CpModel()
    weeks = [
        squad_week(model, task, {"field": each.field, "gym": each.gym})
        for task, each in zip(tasks, placed, strict=True)
    ]
    _practise_together(model, weeks)
    return model, weeks


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
