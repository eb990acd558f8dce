"""What a bar, a pair of dumbbells or a sled can be loaded to: never more than is asked for."""

from collections.abc import Sequence

from pydantic import Field

from optimiser.domain.strict import Strict

#: What a load worked out in floating point may miss a plate by, in kg.
FUZZ = 1e-6
#: Plates on each side of a bar in a usual rack, in kg.
PLATES = (25.0, 25.0, 25.0, 25.0, 20.0, 15.0, 10.0, 5.0, 2.5, 1.25)


class BarLoad(Strict):
    """A loaded bar: its mass with plates, and the plates on each side, in kg."""

    total_kg: float = Field(ge=0)
    per_side: tuple[float, ...]


def load_bar(kg: float, bar_kg: float = 20.0, plates: Sequence[float] = PLATES) -> BarLoad:
    """Return the heaviest loading that the plates allow and that is not above ``kg``.

    Parameters
    ----------
    kg
        Wanted mass, bar and plates together; at least the bar.
    bar_kg
        Mass of the empty bar.
    plates
        Plates on hand for each side, in kg, to the gram; repeat a mass as often as it is there.

    Raises
    ------
    ValueError
        If a mass is not above 0, or ``kg`` is less than the empty bar.
    """
    _check_masses(bar_kg, *plates)
    if not bar_kg <= kg < float("inf"):
        raise ValueError(f"a load must be at least the empty bar, {bar_kg:g} kg (got {kg:g} kg)")
    sides = _reachable([_grams(plate) for plate in plates])
    wanted = (kg + FUZZ - bar_kg) * 500
    side = max(mass for mass in sides if mass <= wanted)
    per_side = tuple(gram / 1000 for gram in sides[side])
    return BarLoad(total_kg=(_grams(bar_kg) + 2 * side) / 1000, per_side=per_side)


def dumbbell(kg: float, step: float = 2.5, heaviest: float = 50.0) -> float:
    """Return the heaviest dumbbell that is not above ``kg``, in kg.

    Parameters
    ----------
    kg
        Wanted mass of one dumbbell.
    step
        Difference between neighbours on the rack, and the lightest of them.
    heaviest
        Largest one there is.

    Raises
    ------
    ValueError
        If a mass is not above 0, or ``kg`` is under the lightest dumbbell.
    """
    _check_masses(step, heaviest)
    if not step <= kg + FUZZ < float("inf"):
        raise ValueError(f"a load must be at least {step:g} kg, the lightest (got {kg:g} kg)")
    return min(step_load(kg, step), step_load(heaviest, step))


def step_load(kg: float, step: float = 2.5) -> float:
    """Return the largest multiple of ``step`` that is not above ``kg``, 0 included.

    Raises
    ------
    ValueError
        If ``step`` is not above 0 or ``kg`` is negative.
    """
    _check_masses(step)
    if not 0 <= kg < float("inf"):
        raise ValueError(f"a load must be 0 kg or more (got {kg:g} kg)")
    return (kg + FUZZ) // step * step


def _reachable(plates: list[int]) -> dict[int, tuple[int, ...]]:
    """Return each mass one side can carry, in grams, with the fewest plates that make it."""
    found: dict[int, tuple[int, ...]] = {0: ()}
    for plate in sorted(plates, reverse=True):
        for mass, used in list(found.items()):
            known = found.get(mass + plate)
            if known is None or len(known) > len(used) + 1:
                found[mass + plate] = (*used, plate)
    return found


def _grams(kg: float) -> int:
    return round(kg * 1000)


def _check_masses(*masses: float) -> None:
    wrong = [mass for mass in masses if not 0.001 <= mass < 1000]
    if wrong:
        raise ValueError(f"a mass must be above 0 kg and below 1000 kg (got {wrong[0]:g})")
