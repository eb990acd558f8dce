"""How many sets a dose keeps, and the ground contacts in them."""

from math import floor

from optimiser.athlete.exercise import Exercise, Item
from optimiser.domain.quality import Dose

#: Share of a full dose's sets: a third of the volume holds what was built (Spiering et al. 2021,
#: Journal of Strength and Conditioning Research 35(5): 1449-1458); the middle is our choice.
SHARE = {Dose.TOUCH: 1 / 3, Dose.REDUCED: 0.6, Dose.FULL: 1.0}


def scaled_sets(sets: int, dose: Dose) -> int:
    """Return the sets of a dose: all, about 0.6 or about a third of them, and at least one."""
    return max(1, floor(sets * SHARE[dose] + 0.5))


def contacts_of(item: Item, exercise: Exercise, sets: int) -> int:
    """Return the ground contacts of all sets, the more where a span is given."""
    if not exercise.jump or not item.reps:
        return 0
    sides = 2 if exercise.side == "each" else 1
    return round(item.reps[1]) * sides * sets
