"""Week by week inside a block: the first one lighter, then a little more each week.

Load rises by 2 to 5 % a week, or a set ends one repetition closer to failure; the next block
begins lighter again; what is lifted for speed stays (common practice; ACSM 2009, Medicine and
Science in Sports and Exercise 41(3): 687-708, has rises of 2-10 %, from memory). The band's own
percentage is that of the third week.
"""

from collections.abc import Sequence

from optimiser.athlete.exercise import Exercise, Item
from optimiser.athlete.library import Library
from optimiser.athlete.strength import reserve_at

#: Share of the band's percentage in the weeks of a block; the last one counts for later weeks too.
STEPS = (0.95, 0.975, 1.0, 1.025)
#: Lowest percentage in the table of repetitions, and the fewest left in reserve.
LOWEST, FEWEST = 65.0, 1.0


def progressed(items: Sequence[Item], library: Library, block_week: int | None) -> list[Item]:
    """Return items as heavy as their week of the block wants it.

    Parameters
    ----------
    block_week
        From 1; None leaves them as they are.
    """
    if block_week is None:
        return list(items)
    step = STEPS[min(block_week, len(STEPS)) - 1]
    return [_at(item, library.exercises[item.exercise], step) for item in items]


def _at(item: Item, exercise: Exercise, step: float) -> Item:
    heavy = exercise.lifted and not exercise.fast
    if not (heavy and item.reps and item.percent) or step == 1:
        return item
    low, high = (round(2 * share * step) / 2 for share in item.percent)
    told: dict[str, object] = {"percent": (low, high)}
    if item.reserve:
        told["reserve"] = _reserve(item, high, step)
    return item.model_copy(update=told)


def _reserve(item: Item, percent: float, step: float) -> tuple[float, float]:
    """Return what is left at the new percentage: by the table, else one more or one less."""
    assert item.reserve is not None
    assert item.reps is not None
    least, most = item.reserve
    if percent < LOWEST:
        move = 1.0 if step < 1 else -1.0
        return max(FEWEST, least + move), max(FEWEST, most + move)
    told = max(FEWEST, float(round(reserve_at(percent, item.reps[1]))))
    # heavier never leaves more than the band does, lighter never less
    told = min(told, least) if step > 1 else max(told, most)
    return told, told
