"""What is liked less about a week's days, as a cost in hundredths."""

from ortools.sat.python import cp_model

from optimiser.days.decisions import PLACES, Decisions
from optimiser.days.linear import Linear, total
from optimiser.days.pieces import CROWDED, HARD_SESSION, OVER, PARTED, PARTED_FULL, UNEVEN
from optimiser.days.placing import (
    AWAY_FROM_PRACTICE,
    DOUBLE,
    GYM_WITH_PRACTICE,
    HARD_DAY,
    LOAD_COST,
    NEIGHBOURS,
    NO_SPEED_TOUCH,
    SPEED_COST,
    USUAL_LOAD_COST,
    Put,
    lifting_costs,
    speed_days,
)
from optimiser.days.practice import is_resting
from optimiser.days.spacings import doubles
from optimiser.domain.quality import Dose, Place

Costs = list[Linear]
#: For each place further down the order of days for practice.
PRACTICE_STEP = 300
#: For each AU of practice on a day of rest, as much as on the day before or after a match.
REST_LOAD_COST = 8
#: For each session or practice moved from its day, and each piece of work, where a person asked
#: something of a week that stood: more than all else that is liked less.
MOVED, WORK_MOVED = 100_000, 10_000
LONG = 2000


def costs(week: Decisions) -> Costs:
    """Return everything that is liked less, other than times of day."""
    return [
        *(cost for place in PLACES for cost in _even(week, place)),
        *_days(week),
        *_neighbours(week),
        *(DOUBLE * both for both in doubles(week)),
        *(HARD_DAY * on for on in week.day_mark("hard").values()),
        *_speed(week),
        *_practice(week),
        *_moved(week),
    ]


def _even(week: Decisions, place: Place) -> Costs:
    """Return the costs of sessions too long, too full, uneven, and of work that is parted."""
    slots, model = list(week.slots(place)), week.model
    if not slots:
        return []
    longest, shortest = (model.new_int_var(0, LONG, "") for _ in range(2))
    model.add(longest >= shortest)
    found: Costs = [UNEVEN * (longest - shortest)]
    for slot in slots:
        over, crowded = model.new_int_var(0, LONG, ""), model.new_int_var(0, 12, "")
        model.add(over >= week.minutes[slot] - week.task.longest(place))
        model.add(crowded >= week.filled[slot] - week.task.limits.pieces)
        model.add(longest >= week.minutes[slot])
        model.add(shortest <= week.minutes[slot] + LONG * (1 - week.held[slot]))
        found += [OVER * over, CROWDED * crowded]
        if week.can("hard", slot):
            found.append(HARD_SESSION * week.mark("hard", slot))
    found += [
        (PARTED_FULL if share.piece.dose is Dose.FULL else PARTED) * share.parted
        for share in week.shares[place]
    ]
    return found


def _days(week: Decisions) -> Costs:
    found: Costs = []
    lifting = lifting_costs(week.task)
    for slot, held in week.held.items():
        day = week.day(slot)
        # the earlier day where nothing else tells two apart
        found += [LOAD_COST.get(day.label, USUAL_LOAD_COST) * week.load[slot], day.index * held]
        dear = lifting.get(day.label, 0)
        if dear and week.can("lifting", slot):
            lifts = week.mark("lifting", slot)
            found.append(dear // 2 * lifts)
            if week.can("hard", slot):
                found.append(dear // 2 * _with(week, lifts, week.mark("hard", slot)))
        practice = week.practice[day.index]
        if slot[0] == "field":
            found.append(AWAY_FROM_PRACTICE * _with(week, held, 1 - practice))
        else:
            found.append(GYM_WITH_PRACTICE * _with(week, held, practice))
    return found


def _with(week: Decisions, one: Linear, other: Linear) -> cp_model.IntVar:
    both = week.model.new_bool_var("")
    week.model.add(one + other - both <= 1)
    return both


def _neighbours(week: Decisions) -> Costs:
    gyms = {slot[1]: week.held[slot] for slot in week.slots("gym")}
    return [
        NEIGHBOURS * _with(week, on, gyms[day + 1]) for day, on in gyms.items() if day + 1 in gyms
    ]


def _speed(week: Decisions) -> Costs:
    """Return what it costs to have top speed elsewhere than close before a match."""
    model, speed = week.model, week.day_mark("speed")
    best = [day for day in speed_days(week.task.days) if day.until is not None]
    if not speed or not best:
        return []
    some = model.new_bool_var("")
    for on in speed.values():
        model.add_implication(on, some)
    gains = []
    for day in best:
        if day.index in speed:
            gain = model.new_bool_var("")
            model.add(gain <= total(week.mark("speed", s) for s in week.on_day(day.index)))
            gains.append((gain, NO_SPEED_TOUCH - SPEED_COST[day.until or 0]))
    model.add(total(gain for gain, _ in gains) <= some)
    return [NO_SPEED_TOUCH * some, *(-worth * gain for gain, worth in gains)]


def _practice(week: Decisions) -> Costs:
    """Return what practice costs by its place in the order of days, and by its load there."""
    practices, days = week.task.practices, week.task.days
    loads = [
        practices.load
        * max(REST_LOAD_COST * is_resting(day), LOAD_COST.get(day.label, USUAL_LOAD_COST))
        for day in days
    ]
    return [
        (PRACTICE_STEP * at + loads[day]) * week.practice[day]
        for at, day in enumerate(practices.order)
    ]


def _moved(week: Decisions) -> Costs:
    """Return the costs of what is not where it was in the week that is to stay."""
    stay = week.task.stay
    if stay is None:
        return []
    there: Costs = [week.held[slot] for slot in stay.clock.starts if slot in week.held]
    there += [week.practice[day] for day in stay.clock.practice]
    puts = zip(PLACES, (stay.field, stay.gym), strict=True)
    work = [on for place, put in puts for on in _work_there(week, place, put)]
    return [MOVED * (len(there) - total(there)), WORK_MOVED * (len(work) - total(work))]


def _work_there(week: Decisions, place: Place, put: Put) -> Costs:
    """Return for each piece of work and day of it 1 if it is done there again."""
    return [
        total(on for on, _, _ in share.on(day))
        for share, way in zip(week.shares[place], put.spread.ways, strict=False)
        for day in (put.days[number] for number in way)
    ]
