"""What to expect of a run, and what to put on a sled, from an athlete's own tests."""

from collections.abc import Mapping, Sequence

from optimiser.athlete.allowed import ALL_OUT
from optimiser.athlete.card import Kit, Pair
from optimiser.athlete.exercise import Item
from optimiser.athlete.plates import step_load
from optimiser.athlete.sled import USUAL_L0, fit_losses, load_for
from optimiser.athlete.sprint import SprintFit, fit_splits, time_at
from optimiser.athlete.squad import Athlete
from optimiser.domain.strict import Strict

#: Splits needed before a target is printed: how many, and how far the last must lie, in m.
LEAST_SPLITS = (3, 30.0)

#: Root mean square of the fit, in s, above which the splits are not believed.
WORST_FIT = 0.05

#: Splits from which on what the start adds to every time is fitted too (three numbers from three
#: splits would fit anything).
FREE_START = 4

NO_SLED_TEST = (
    f"no sled test: usual line ({USUAL_L0:g} % of body mass stops a young athlete on turf); "
    "surface and sled change it, so time a run and correct the load"
)


class SledLoad(Strict):
    """Load on a sled in kg, from and to, and where it comes from."""

    kg: Pair | None
    how: str
    note: str = ""


def curve(athlete: Athlete) -> SprintFit | None:
    """Return the athlete's sprint curve, or None if the splits cannot carry one."""
    metres = sorted(athlete.splits)
    fewest, farthest = LEAST_SPLITS
    if len(metres) < fewest or metres[-1] < farthest:
        return None
    seconds = [athlete.splits[at] for at in metres]
    try:
        found = fit_splits(metres, seconds, free_start=len(metres) >= FREE_START)
    except ValueError:
        return None
    return found if found.rms <= WORST_FIT and found.vmax >= _fastest(metres, seconds) else None


def _fastest_leg(splits: Mapping[float, float]) -> float:
    """Return the highest mean speed the athlete has run between two splits."""
    metres = sorted(splits)
    return _fastest(metres, [splits[at] for at in metres])


def _fastest(metres: Sequence[float], seconds: Sequence[float]) -> float:
    """Return the highest mean speed between two splits: top speed is not below it."""
    runs = [0.0, *metres], [0.0, *seconds]
    (starts, ends), (befores, afters) = ((row[:-1], row[1:]) for row in runs)
    legs = zip(starts, ends, befores, afters, strict=True)
    return max((end - start) / (after - before) for start, end, before, after in legs)


def run_target(item: Item, found: SprintFit | None, splits: Mapping[float, float]) -> str:
    """Return the time or the speed to expect of a run, or nothing without a curve.

    Parameters
    ----------
    splits
        Times in s by distance in m that were run: no target of a run all out is slower than
        these.
    """
    if found is None or item.metres is None or item.loss or item.body_mass:
        return ""
    if item.speed:
        low, high = (found.vmax * share / 100 for share in item.speed)
        if item.speed[1] >= ALL_OUT:
            low = min(high, max(low, _fastest_leg(splits)))
        return f"{low:.1f}-{high:.1f} m/s" if high - low >= 0.05 else f"{high:.1f} m/s"
    if item.lead_in:
        return ""
    seconds = float(time_at(item.metres, found.vmax, found.tau)) + found.t0
    return f"{min(seconds, splits.get(item.metres, seconds)):.2f} s"


def sled_load(athlete: Athlete, item: Item, kit: Kit) -> SledLoad:
    """Return the load on a sled, the sled's own mass included.

    From the athlete's own line of load against loss of speed; without a test from the usual one,
    with a caution. Loads are advice: friction belongs to the surface.
    """
    if item.body_mass:
        return SledLoad(
            kg=_kg(athlete, item.body_mass, kit), how=f"{_span(item.body_mass)} of BM with the sled"
        )
    if not item.loss:
        return SledLoad(kg=None, how="by feel")
    tests = athlete.sled_losses
    zero = fit_losses(list(tests), list(tests.values())).zero_load if tests else USUAL_L0
    low, high = (load_for(loss, zero) for loss in item.loss)
    how = f"takes {_span(item.loss)} off, {low:.0f}-{high:.0f} % of BM with the sled"
    note = "" if len(tests) > 1 else "sled load rests on one test run" if tests else NO_SLED_TEST
    return SledLoad(kg=_kg(athlete, (low, high), kit), how=how, note=note)


def _kg(athlete: Athlete, percent: Pair, kit: Kit) -> Pair:
    low, high = (step_load(athlete.body_mass_kg * share / 100, kit.sled_step) for share in percent)
    return (low, high)


def _span(span: Pair) -> str:
    return f"{span[0]:g} %" if span[0] == span[1] else f"{span[0]:g}-{span[1]:g} %"
