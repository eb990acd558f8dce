"""How long work takes: the one place where sets, repetitions and rests become minutes.

Plan and card both ask here, so that a session lasts as long as what it holds.
"""

from collections.abc import Iterable, Mapping

from optimiser.athlete.dose_sets import scaled_sets
from optimiser.athlete.exercise import Exercise, Item
from optimiser.domain.quality import Dose

#: Planned minutes are multiples of this.
STEP = 5
#: Seconds of one repetition: of a jump, of a fast lift, of any other; and metres a second of a run
#: and of a sled (engineering choices).
JUMP_S, FAST_S, LIFT_S = 1.5, 2.5, 4.0
RUN_M_S, SLED_M_S = 5.0, 3.0
#: Rest where an item gives none, the way from one exercise to the next, and a rising set with its
#: rest, in s (engineering choices).
USUAL_REST_S, CHANGE_S, RISING_SET_S = 60.0, 60.0, 75.0
#: Rising sets before heavy lifts, in per cent of the 1RM (common practice, no source).
RISING = (40.0, 60.0, 75.0, 85.0)
#: From this percentage on a lift is heavy enough for them; each is so many points below the work.
HEAVY, BELOW = 70.0, 5.0


def work_minutes(items: Iterable[Item], exercises: Mapping[str, Exercise], dose: Dose) -> int:
    """Return the minutes that a dose of a band's items takes, rounded up to 5 min.

    Sets x (work + rest), of the last rest no more than the way to what comes next, and the rising
    sets before heavy lifts; warm-up and standing work of the session are not in it.

    Parameters
    ----------
    items
        At full dose.
    exercises
        By key.
    """
    seconds, first = 0.0, True
    for item in items:
        exercise = exercises[item.exercise]
        seconds += scaled_sets(item.sets, dose) * set_seconds(item, exercise)
        seconds -= max(0.0, _rest(item) - CHANGE_S)
        rising = rising_percents(item, exercise, first=first)
        seconds += RISING_SET_S * len(rising)
        first = first and not rising
    return max(STEP, STEP * -int(-seconds // (60 * STEP)))


def set_seconds(item: Item, exercise: Exercise) -> float:
    """Return the seconds of one set and the rest after it, in the middle of any span."""
    sides = 2 if exercise.side == "each" else 1
    return sides * _work(item, exercise) + _rest(item)


def rising_percents(item: Item, exercise: Exercise, *, first: bool) -> tuple[float, ...]:
    """Return the rising sets before a heavy lift, in per cent of the 1RM; none before others.

    Parameters
    ----------
    first
        True for the first heavy lift of a session, which gets two to four of them.
    """
    if not exercise.lifted or exercise.fast or not item.percent or item.percent[1] < HEAVY:
        return ()
    found = tuple(share for share in RISING if share <= item.percent[0] - BELOW)
    return found if first else tuple(share for share in found if share >= HEAVY)


def _rest(item: Item) -> float:
    return _middle(item.rest) if item.rest else USUAL_REST_S


def _work(item: Item, exercise: Exercise) -> float:
    if item.seconds:
        return _middle(item.seconds)
    if item.metres:
        pace = SLED_M_S if exercise.load == "sled" else RUN_M_S
        return (item.metres + (item.lead_in or 0.0)) / pace
    each = JUMP_S if exercise.jump else FAST_S if exercise.fast else LIFT_S
    return each * (item.reps[1] if item.reps else 1.0)


def _middle(span: tuple[float, float]) -> float:
    return (span[0] + span[1]) / 2
