"""The items of a band, brought down to what holds an athlete this week."""

from collections.abc import Sequence
from math import floor

from optimiser.athlete.allowed import intensity
from optimiser.athlete.exercise import Exercise, Item
from optimiser.athlete.hold import Hold
from optimiser.athlete.library import Library
from optimiser.athlete.volume import MEASURES, Measure, amount, held_under, metres
from optimiser.domain.quality import Dose

#: Width of a target of speed below the most that is allowed, in per cent of top speed.
WIDTH = 10.0


def barred_by(hold: Hold, library: Library) -> frozenset[str]:
    """Return the keys of exercises that a hold rules out."""
    return frozenset(key for key, each in library.exercises.items() if _barred(each, hold))


def _barred(exercise: Exercise, hold: Hold) -> bool:
    if exercise.jump and hold.jumps < (2 if exercise.single else 1):
        return True
    if exercise.over_distance:
        return hold.speed == 0 if exercise.timed else not hold.lets_run
    # effort for a time, on a bike say, is held to the speed that is allowed
    eased = exercise.timed and hold.speed > 0
    return (exercise.fast and not hold.fast and not eased) or (exercise.strain and not hold.strain)


def held_items(
    items: Sequence[Item], planned: Sequence[Item], hold: Hold, library: Library, dose: Dose
) -> list[Item]:
    """Return items as light, as slow and as few as a hold asks for.

    Parameters
    ----------
    items, planned
        Of the band the athlete may do, and of the band of the plan.
    """
    if hold.free:
        return list(items)
    fastest = max((item.speed[1] if item.speed else 100.0 for item in planned), default=100.0)
    eased = [_eased(item, library.exercises[item.exercise], hold, fastest) for item in items]
    return held_under(eased, library, dose, _allowed(eased, planned, hold, library, dose))


def _eased(item: Item, exercise: Exercise, hold: Hold, fastest: float) -> Item:
    if item.metres and item.speed and not hold.lets_run:
        top = min(hold.speed, fastest)
        return item.model_copy(update={"speed": (top - WIDTH, top)})
    if hold.load < 1 and item.loss:
        low, high = (share * hold.load for share in item.loss)
        return item.model_copy(update={"loss": (float(floor(low)), float(floor(high)))})
    if hold.load >= 1 or not exercise.lifted or not item.reps:
        return item
    heavy = item.percent or ((intensity(item, exercise),) * 2 if not exercise.fast else None)
    if heavy is None:
        return item
    low, high = (float(floor(share * hold.load)) for share in heavy)
    # what is left in reserve follows from the lower percentage
    return item.model_copy(update={"percent": (low, high), "reserve": None})


def _allowed(
    items: Sequence[Item], planned: Sequence[Item], hold: Hold, library: Library, dose: Dose
) -> dict[Measure, float]:
    """Return the most of each measure: a share of the squad's, and one of a full dose.

    Metres are shares of the squad's. Lifts and jumps are shares of the band that is done: a few
    drop jumps say nothing of how many low ones are half of it.
    """
    found: dict[Measure, float] = {}
    for measure in MEASURES:
        run = measure is metres and amount(planned, library, dose, measure)
        basis = planned if run else items
        here, full = (amount(basis, library, each, measure) for each in (dose, Dose.FULL))
        found[measure] = min(hold.share * here, hold.full_share * full)
    return found
