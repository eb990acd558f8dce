"""The spacings of a week as rows; what cannot be kept is counted."""

from itertools import combinations

from ortools.sat.python import cp_model

from optimiser.days.day import Kind
from optimiser.days.decisions import PLACES, Decisions
from optimiser.days.linear import Linear, total

#: What may be given up: a 0-1 variable or a sum of them.
Faults = list[Linear]
#: More minutes or AU than any day holds.
MUCH = 10_000


def post_spacings(week: Decisions) -> Faults:
    """Post what one squad's week has to keep, whatever the hours, and return what may break it."""
    return [
        *_of_sessions(week),
        *_primers(week),
        *_near(week),
        *_in_a_row(week),
        *_doubles(week),
    ]


def _of_sessions(week: Decisions) -> Faults:
    found: Faults = []
    for slot, held in week.held.items():
        day = week.day(slot)
        empty = week.model.new_bool_var("")
        week.model.add(held - week.filled[slot] <= empty)
        found.append(empty)
        if not day.trainable:
            found.append(held)
        if not day.hard and week.can("hard", slot):
            found.append(week.mark("hard", slot))
        if day.kind is Kind.PRIMER and week.can("above", slot):
            found.append(week.mark("above", slot))
    return found


def _primers(week: Decisions) -> Faults:
    found: Faults = []
    for day in week.task.days:
        slots = week.on_day(day.index)
        if day.kind is Kind.PRIMER and slots:
            over = week.model.new_bool_var("")
            minutes = total(week.minutes[slot] for slot in slots)
            week.model.add(minutes <= week.task.settings.primer_minutes + MUCH * over)
            found.append(over)
    return found


def _near(week: Decisions) -> Faults:
    settings = week.task.settings
    hard, jumps = week.day_mark("hard"), week.day_mark("jumps")
    speed = week.day_mark("speed")
    pairs = [
        (hard, hard, -(-settings.hard_hours // 24)),
        (jumps, jumps, settings.jump_days),
        (hard, speed, settings.speed_days),
    ]
    found: Faults = []
    for before, after, apart in pairs:
        for first, second in combinations(range(7), 2):
            if second - first < apart and first in before and second in after:
                found.append(_both(week.model, before[first], after[second]))
    return found


def _both(model: cp_model.CpModel, one: Linear, other: Linear) -> cp_model.IntVar:
    both = model.new_bool_var("")
    model.add(one + other - both <= 1)
    return both


def used(week: Decisions) -> dict[int, cp_model.IntVar]:
    """Return by day a variable that is 1 if it has a session."""
    found: dict[int, cp_model.IntVar] = {}
    for slot, held in week.held.items():
        one = found.setdefault(slot[1], week.model.new_bool_var(""))
        week.model.add_implication(held, one)
    return dict(sorted(found.items()))


def _in_a_row(week: Decisions) -> Faults:
    days, apart = used(week), week.task.settings.session_days
    pairs = [(d, e) for d, e in combinations(sorted(days), 2) if e - d < apart]
    return [_both(week.model, days[day], days[other]) for day, other in pairs]


def doubles(week: Decisions) -> list[cp_model.IntVar]:
    """Return a variable for every day that is 1 if it has a field and a gym session."""
    days = [day.index for day in week.task.days]
    pairs = [[(place, day) for place in PLACES] for day in days]
    return [
        _both(week.model, week.held[field], week.held[gym])
        for field, gym in pairs
        if field in week.held and gym in week.held
    ]


def _doubles(week: Decisions) -> Faults:
    both = doubles(week)
    over = week.model.new_int_var(0, 7, "")
    week.model.add(total(both) - over <= week.task.settings.doubles)
    return [over]


def post_ceilings(week: Decisions) -> Faults:
    """Post what a day may hold of minutes and AU, practice counted in."""
    settings, practice = week.task.settings, week.task.practices
    found: Faults = []
    for day in week.task.days:
        slots, on = week.on_day(day.index), week.practice[day.index]
        if not slots:
            continue
        extra = week.task.extra
        minutes = total(week.minutes[slot] + extra * week.held[slot] for slot in slots)
        load = total(week.load[slot] for slot in slots)
        for own, each, most in (
            (minutes, practice.minutes, settings.day_minutes),
            (load, practice.load, settings.most_load(day.until)),
        ):
            over = week.model.new_bool_var("")
            week.model.add(own <= most - min(most, each) * on + MUCH * over)
            found.append(over)
    return found
