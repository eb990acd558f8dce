"""Under 18: fewer and lighter sets than the adult card of the same week, never more.

What is allowed goes by training age and technique, which a coach enters; beginner unless told.

Lloyd et al. (2014), British Journal of Sports Medicine 48(7): 498-505, an international position
statement on youth resistance training: beginners 1-2 sets at 60 % or less, then 2-4 sets at 80 %
or less, with sound technique 2-5 sets at 85 % (numbers from memory). The share of contacts is an
engineering choice.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from optimiser.athlete.exercise import Exercise, Item
from optimiser.athlete.library import Library
from optimiser.athlete.limits import intensity
from optimiser.athlete.squad import TrainingLevel
from optimiser.athlete.volume import (
    MEASURES,
    Measure,
    amount,
    contacts,
    held_under,
    lifted,
    repeated,
    repetitions,
)
from optimiser.domain.quality import Dose

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

    Sets x repetitions x load of all items together, repetitions without a load, and metres stay
    at or below the adult's, contacts at or below their share of them. Where the young do something
    else than the adult, such as swings for cleans, its repetitions stay at or below the adult's.

    Parameters
    ----------
    items, adult
        Of the band the young athlete may do, and of the band of the plan.
    """
    limit = ALLOWED[level]
    lifts = [_capped(item, library.exercises[item.exercise], limit) for item in items]
    allowed: dict[Measure, float] = {}
    for measure in MEASURES:
        share = CONTACTS if measure is contacts else 1.0
        asked = amount(adult, library, dose, measure)
        if not asked and measure in (repeated, contacts):
            asked = repetitions(adult, dose)
        if asked or measure is not lifted:
            allowed[measure] = share * asked
    return held_under(lifts, library, dose, allowed)


def _capped(item: Item, exercise: Exercise, limit: Allowed) -> Item:
    if not exercise.lifted or not item.reps:
        return item
    heavy = item.percent or ((intensity(item, exercise),) * 2 if not exercise.fast else None)
    percent = heavy and (min(heavy[0], limit.percent), min(heavy[1], limit.percent))
    # what is left in reserve follows from the lower percentage
    kept = None if percent else item.reserve
    told = {"sets": min(item.sets, limit.sets), "percent": percent, "reserve": kept}
    return item.model_copy(update=told)
