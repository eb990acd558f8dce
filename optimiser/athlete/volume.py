"""How much work items hold, and cutting them until it is no more than what is allowed."""

from collections.abc import Callable, Mapping, Sequence
from math import floor

from optimiser.athlete.allowed import ALL_OUT, intensity
from optimiser.athlete.dose_sets import contacts_of, scaled_sets
from optimiser.athlete.exercise import Item
from optimiser.athlete.library import Library
from optimiser.athlete.sprint import distance_to
from optimiser.domain.quality import Dose

#: How much of something an item asks for.
Measure = Callable[[Item, Library, Dose], float]
#: A run that would be shorter than this, in m, is left out (engineering choice).
SHORTEST_RUN = 10.0
RUN_STEP = 5.0
#: A run that is built up takes this many times the metres in which a start all out reaches its
#: speed, on the curve of a usual player, in m/s and s (engineering choices).
BUILT_UP, USUAL_TOP, USUAL_TAU = 2.0, 8.0, 1.2
SPEED_STEP = 5.0


def lifted(item: Item, library: Library, dose: Dose) -> float:
    """Return sets x repetitions x load of an item, load in per cent of the 1RM."""
    exercise = library.exercises[item.exercise]
    if not exercise.lifted or not item.reps:
        return 0.0
    percent = item.percent[1] if item.percent else intensity(item, exercise)
    return scaled_sets(item.sets, dose) * item.reps[1] * max(1.0, percent)


def repeated(item: Item, library: Library, dose: Dose) -> float:
    """Return the repetitions of an item whose load is not in per cent, jumps left out."""
    exercise = library.exercises[item.exercise]
    if exercise.lifted or exercise.jump or not item.reps or item.metres:
        return 0.0
    return scaled_sets(item.sets, dose) * item.reps[1]


def contacts(item: Item, library: Library, dose: Dose) -> float:
    """Return the ground contacts of an item."""
    return contacts_of(item, library.exercises[item.exercise], scaled_sets(item.sets, dose))


def metres(item: Item, library: Library, dose: Dose) -> float:
    """Return the metres of an item, run-ups counted in."""
    return scaled_sets(item.sets, dose) * ((item.metres or 0.0) + (item.lead_in or 0.0))


def repetitions(items: Sequence[Item], dose: Dose) -> float:
    """Return all repetitions of items, whatever they are done with."""
    return sum(scaled_sets(item.sets, dose) * item.reps[1] for item in items if item.reps)


#: What is compared, each on its own.
MEASURES: tuple[Measure, ...] = (lifted, repeated, contacts, metres)


def amount(items: Sequence[Item], library: Library, dose: Dose, measure: Measure) -> float:
    """Return how much of something items hold together."""
    return sum(measure(item, library, dose) for item in items)


def held_under(
    items: Sequence[Item],
    library: Library,
    dose: Dose,
    allowed: Mapping[Measure, float],
) -> list[Item]:
    """Take sets, then repetitions or metres, from whichever item asks for most.

    Parameters
    ----------
    allowed
        Most of each measure; what is missing is not limited.
    """
    kept = list(items)
    for measure, most in allowed.items():
        kept = _under(kept, library, dose, measure, most)
    return kept


def _under(
    items: list[Item], library: Library, dose: Dose, measure: Measure, allowed: float
) -> list[Item]:
    while sum(asked := [measure(item, library, dose) for item in items]) > allowed + 1e-9:
        most = asked.index(max(asked))
        less = _less(items[most], dose)
        items = [*items[:most], *([less] if less else []), *items[most + 1 :]]
    return items


def _less(item: Item, dose: Dose) -> Item | None:
    """Return the item with a set less, or where there is but one, with less in it."""
    fewer = item.sets - 1
    while fewer and scaled_sets(fewer, dose) == scaled_sets(item.sets, dose):
        fewer -= 1
    if fewer:
        return item.model_copy(update={"sets": fewer})
    if item.metres:
        return _shorter(item)
    low, high = item.reps or (1.0, 1.0)
    if floor(high) <= 1:
        return None
    return item.model_copy(update={"reps": (min(low, high - 1), high - 1)})


def _shorter(item: Item) -> Item | None:
    """Return a run a step shorter, its run-up as it is."""
    left = (item.metres or 0.0) - RUN_STEP
    if left < SHORTEST_RUN:
        return None
    return built_up(item.model_copy(update={"metres": left}))


def built_up(item: Item) -> Item:
    """Return a run no faster than can be built up to at ease over its metres.

    A short run to 90 % of top speed would be a start all out.
    """
    if not item.speed or item.speed[1] >= ALL_OUT or item.metres is None:
        return item
    low, high = item.speed
    top = high
    while top > SPEED_STEP and BUILT_UP * _reached(top) > item.metres + (item.lead_in or 0.0):
        top -= SPEED_STEP
    return item.model_copy(update={"speed": (low - (high - top), top)})


def _reached(percent: float) -> float:
    """Return the metres in which a start all out reaches a share of top speed."""
    return distance_to(percent / 100, USUAL_TOP, USUAL_TAU)
