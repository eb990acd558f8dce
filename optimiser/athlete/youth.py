"""Under 18: fewer and lighter sets than the adult card of the same week, never more.

What is allowed goes by training age and technique, which a coach enters; beginner unless told.

Lloyd et al. (2014), British Journal of Sports Medicine 48(7): 498-505, an international position
statement on youth resistance training: beginners 1-2 sets at 60 % or less, then 2-4 sets at 80 %
or less, with sound technique 2-5 sets at 85 % (numbers from memory). The share of contacts is an
engineering choice.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import floor

from optimiser.athlete.dose_sets import contacts_of, scaled_sets
from optimiser.athlete.exercise import Exercise, Item
from optimiser.athlete.library import Library
from optimiser.athlete.limits import intensity
from optimiser.athlete.squad import TrainingLevel
from optimiser.domain.quality import Dose

#: How much of something an item asks for.
Measure = Callable[[Item, Library, Dose], float]
#: Most of the adult's ground contacts.
CONTACTS = 0.6


@dataclass(frozen=True)
class Allowed:
    """Most sets of one exercise, and most of the 1RM in per cent."""

    sets: int
    percent: float


ALLOWED: dict[TrainingLevel, Allowed] = {
    "beginner": Allowed(2, 60.0),
    "intermediate": Allowed(4, 80.0),
    "advanced": Allowed(5, 85.0),
}


def gentler(
    items: Sequence[Item],
    adult: Sequence[Item],
    level: TrainingLevel,
    library: Library,
    dose: Dose,
) -> list[Item]:
    """Return the items of a young athlete's band, held under what the adult's band asks for.

    Sets x repetitions x load of all items together stay at or below the adult's, contacts at or
    below their share of them.

    Parameters
    ----------
    items, adult
        Of the band the young athlete may do, and of the band of the plan.
    """
    limit = ALLOWED[level]
    lifts = [_capped(item, library.exercises[item.exercise], limit) for item in items]
    for measure, share in ((lifted, 1.0), (contacts, CONTACTS)):
        allowed = share * sum(measure(item, library, dose) for item in adult)
        lifts = _under(lifts, library, dose, measure, allowed)
    return lifts


def lifted(item: Item, library: Library, dose: Dose) -> float:
    """Return sets x repetitions x load of an item, load in per cent of the 1RM."""
    exercise = library.exercises[item.exercise]
    if not exercise.lifted or not item.reps:
        return 0.0
    percent = item.percent[1] if item.percent else intensity(item, exercise)
    return scaled_sets(item.sets, dose) * item.reps[1] * max(1.0, percent)


def contacts(item: Item, library: Library, dose: Dose) -> float:
    """Return the ground contacts of an item."""
    return contacts_of(item, library.exercises[item.exercise], scaled_sets(item.sets, dose))


def _capped(item: Item, exercise: Exercise, limit: Allowed) -> Item:
    if not exercise.lifted or not item.reps:
        return item
    heavy = item.percent or ((intensity(item, exercise),) * 2 if not exercise.fast else None)
    percent = heavy and (min(heavy[0], limit.percent), min(heavy[1], limit.percent))
    # what is left in reserve follows from the lower percentage
    kept = None if percent else item.reserve
    told = {"sets": min(item.sets, limit.sets), "percent": percent, "reserve": kept}
    return item.model_copy(update=told)


def _under(
    items: list[Item],
    library: Library,
    dose: Dose,
    measure: Measure,
    allowed: float,
) -> list[Item]:
    """Take sets, then repetitions, from whichever item asks for most, until all is allowed."""
    items = list(items)
    while sum(asked := [measure(item, library, dose) for item in items]) > allowed + 1e-9:
        most = asked.index(max(asked))
        less = _less(items[most], dose)
        if less is None:
            items = [item for at, item in enumerate(items) if at != most]
        else:
            items[most] = less
    return items


def _less(item: Item, dose: Dose) -> Item | None:
    """Return the item with a set less, or where there is but one, with a repetition less."""
    fewer = item.sets - 1
    while fewer and scaled_sets(fewer, dose) == scaled_sets(item.sets, dose):
        fewer -= 1
    if fewer:
        return item.model_copy(update={"sets": fewer})
    low, high = item.reps or (1.0, 1.0)
    if floor(high) <= 1:
        return None
    return item.model_copy(update={"reps": (min(low, high - 1), high - 1)})
