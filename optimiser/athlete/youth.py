"""Under 18: fewer and lighter sets than the adult card of the same week, never more.

What is allowed goes by training age and technique, which a coach enters; beginner unless told.

Lloyd et al. (2014), British Journal of Sports Medicine 48(7): 498-505, an international position
statement on youth resistance training: beginners 1-2 sets at 60 % or less, then 2-4 sets at 80 %
or less, with sound technique 2-5 sets at 85 % (numbers from memory). The share of contacts is an
engineering choice.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from optimiser.athlete.allowed import intensity
from optimiser.athlete.dose_sets import scaled_sets
from optimiser.athlete.exercise import Exercise, Item
from optimiser.athlete.library import Library
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


#: Repetitions of a set that the published ranges begin with.
USUAL_REPS: dict[TrainingLevel, float] = {"beginner": 8.0, "intermediate": 6.0}
#: Kilograms of an item as they are loaded; 0 where that is not known.
Kilograms = Callable[[Item], float]


@dataclass(frozen=True)
class SetWork:
    """Items, and what is loaded for them."""

    items: Sequence[Item]
    kilograms: Kilograms

    def tonnes(self, dose: Dose) -> float:
        """Return sets x repetitions x kilograms of all items."""
        return sum(_tonnes(item, self.kilograms, dose) for item in self.items)


def _tonnes(item: Item, kilograms: Kilograms, dose: Dose) -> float:
    reps = item.reps[1] if item.reps else 0.0
    return scaled_sets(item.sets, dose) * reps * kilograms(item) if reps else 0.0


def gentler(
    young: SetWork,
    adult: SetWork,
    level: TrainingLevel,
    library: Library,
    dose: Dose,
    *,
    held: bool = False,
) -> list[Item]:
    """Return the items of a young athlete's band, held under what the adult's band asks for.

    Sets x repetitions x load of all items together, in kg and in per cent of the 1RM, repetitions
    without a load, and metres stay at or below the adult's, contacts at or below their share of
    them. Where the young do something else than the adult, such as swings for cleans, its
    repetitions stay at or below the adult's.

    Parameters
    ----------
    young, adult
        Of the band the young athlete may do, and of the band of the plan.
    held
        True on the way back or soon after time off: no set is made longer.
    """
    limit = ALLOWED[level]
    lifts = [_capped(item, library.exercises[item.exercise], limit) for item in young.items]
    allowed: dict[Measure, float] = {}
    for measure in MEASURES:
        share = CONTACTS if measure is contacts else 1.0
        asked = amount(adult.items, library, dose, measure)
        if not asked and measure in (repeated, contacts):
            asked = repetitions(adult.items, dose)
        if asked or measure is not lifted:
            allowed[measure] = share * asked
    if most := adult.tonnes(dose):
        allowed[partial(_in_kilograms, young.kilograms)] = most
    kept = held_under(lifts, library, dose, allowed)
    if held or level not in USUAL_REPS:
        return kept
    return _longer(kept, USUAL_REPS[level], library, dose, allowed)


def _in_kilograms(kilograms: Kilograms, item: Item, library: Library, dose: Dose) -> float:
    exercise = library.exercises[item.exercise]
    return _tonnes(item, kilograms, dose) if exercise.lifted else 0.0


def _longer(
    items: list[Item],
    usual: float,
    library: Library,
    dose: Dose,
    allowed: Mapping[Measure, float],
) -> list[Item]:
    """Return light lifts with up to the usual repetitions, as long as that is allowed."""
    for reps in range(2, int(usual) + 1):
        longer = [_with_reps(item, float(reps), library.exercises[item.exercise]) for item in items]
        if any(amount(longer, library, dose, measure) > most for measure, most in allowed.items()):
            break
        items = longer
    return items


def _with_reps(item: Item, reps: float, exercise: Exercise) -> Item:
    """Return a lift whose load was brought down with at least ``reps`` a set."""
    brought_down = exercise.lifted and not exercise.fast and item.percent and not item.reserve
    if not brought_down or item.reps is None or item.reps[1] >= reps:
        return item
    return item.model_copy(update={"reps": (reps, reps)})


def _capped(item: Item, exercise: Exercise, limit: Allowed) -> Item:
    if not exercise.lifted or not item.reps:
        return item
    heavy = item.percent or ((intensity(item, exercise),) * 2 if not exercise.fast else None)
    percent = heavy and (min(heavy[0], limit.percent), min(heavy[1], limit.percent))
    # what is left in reserve follows from the lower percentage
    kept = None if percent else item.reserve
    told = {"sets": min(item.sets, limit.sets), "percent": percent, "reserve": kept}
    return item.model_copy(update=told)
