"""The load of a lift: from the athlete's own 1RM, or by effort where there is none."""

from collections.abc import Callable
from math import floor

from optimiser.athlete.card import Kit, Pair
from optimiser.athlete.exercise import Exercise, Item
from optimiser.athlete.plates import dumbbell, load_bar, step_load
from optimiser.athlete.squad import Athlete, Lift
from optimiser.athlete.strength import (
    ESTIMATE_ERROR,
    MOST_REPS,
    Equation,
    effort,
    one_rm,
    reserve_at,
)
from optimiser.domain.strict import Strict

EQUATION: Equation = "brzycki"
#: Error of a measured 1RM from test to test, in per cent (Grgic et al. 2020, Sports Medicine - Open
#: 6: 31, a median of about 4; from memory).
MEASURED_ERROR = 4
#: Lowest percentage in the table of repetitions.
LOWEST = 65.0
#: What to do where the lightest load there is would be too much.
LIGHTER = "lighter than can be loaded: take a lighter bar, a light dumbbell or body mass alone"
#: Loads an implement between two masses, as far as the kit can.
Loader = Callable[[float, float, Kit], Pair | None]


class Strength(Strict):
    """An athlete's 1RM in one lift, in kg, and where it comes from."""

    kg: float
    how: str


class LiftLoad(Strict):
    """A load in kg, from and to, or None; and words for it."""

    kg: Pair | None = None
    how: str = ""


def strength(lift: Lift) -> Strength | None:
    """Return the 1RM of a test, or None if the set was too long to tell.

    A measured 1RM beats an estimate. An estimate is by Brzycki's equation and good to 5-7 %
    (Hutchins and Gearhart 2010); above 10 repetitions none is made.
    """
    day = f", {lift.tested}" if lift.tested else ""
    if lift.one_rm_kg is not None and lift.logged:
        test = f" and the test of {lift.tested}" if lift.tested else ""
        how = f"1RM about {lift.one_rm_kg:.0f} kg, ±{lift.error:.0f} %, sets up to {lift.logged}"
        return Strength(kg=lift.one_rm_kg, how=f"{how}{test}")
    if lift.one_rm_kg is not None:
        error = f", ±{MEASURED_ERROR} %" if lift.tested else ""
        return Strength(kg=lift.one_rm_kg, how=f"1RM {lift.one_rm_kg:g} kg{error}{day}")
    if lift.load_kg is None or lift.reps is None or lift.reps > MOST_REPS:
        return None
    kg = one_rm(lift.load_kg, lift.reps, EQUATION)
    if lift.reps == 1:
        return Strength(kg=kg, how=f"1RM {kg:g} kg{day}")
    low, high = ESTIMATE_ERROR
    how = f"1RM about {kg:.0f} kg ({EQUATION.title()}, ±{low}-{high} %{day})"
    return Strength(kg=kg, how=how)


def lift_load(athlete: Athlete, key: str, exercise: Exercise, item: Item, kit: Kit) -> LiftLoad:
    """Return the load for ``item`` done as the exercise ``key``.

    Without a percentage, an implement to load or a test of the lift it is told by effort, never
    guessed.
    """
    if not exercise.lifted:
        told = (item.reserve or item.percent) and not exercise.jump
        return LiftLoad(how=by_effort(item, exercise) if told else "")
    known = known_strength(athlete, key, exercise)
    if item.percent is None:
        return LiftLoad(how=by_effort(item, exercise))
    if known is None:
        # a percentage without repetitions in reserve was brought down: few by feel are far above it
        light = item.reserve is None and not exercise.fast
        return LiftLoad(how=_light(item.percent[1]) if light else by_effort(item, exercise))
    low, high = (known.kg * share / 100 for share in item.percent)
    pair = _LOADERS[exercise.load](low, high, kit)
    if pair is None:
        return LiftLoad(how=f"{floor(high)} kg at most, {LIGHTER}; {known.how}")
    return LiftLoad(kg=pair, how=known.how)


def known_strength(athlete: Athlete, key: str, exercise: Exercise) -> Strength | None:
    """Return the 1RM that the exercise ``key`` is loaded from, or None if no test tells it."""
    lift = athlete.lifts.get(exercise.of or key)
    return strength(lift) if lift else None


def _light(percent: float) -> str:
    """Say a load in repetitions: few of them by feel would be far above a low percentage."""
    times = round(reserve_at(max(LOWEST, percent), 0.0))
    return f"light: what could be lifted {times} times or more"


def by_effort(item: Item, exercise: Exercise) -> str:
    """Return how hard to go, in repetitions left and as a rating of the set."""
    if exercise.fast:
        return "light enough to stay fast"
    left = reserve(item) or (2.0, 3.0)
    ratings = tuple(effort(min(10.0, value)) for value in reversed(left))
    return f"by feel, leave {span_words(left)} (RPE {span_words(ratings)})"


def reserve(item: Item) -> Pair | None:
    """Return the repetitions an item leaves: as written, or by the table from its percentage."""
    if item.reserve or not (item.percent and item.reps):
        return item.reserve
    heavy, light = (max(LOWEST, min(100.0, share)) for share in reversed(item.percent))
    fewest = max(0.0, round(reserve_at(heavy, item.reps[1])))
    return (fewest, max(fewest, round(reserve_at(light, item.reps[0]))))


def span_words(span: tuple[float, ...]) -> str:
    """Return ``3`` or ``3-5``."""
    low, high = span[0], span[-1]
    return f"{low:g}" if low == high else f"{low:g}-{high:g}"


def _bar(low: float, high: float, kit: Kit) -> Pair | None:
    """Return what a bar can be loaded to; 0 is body mass alone, None if the bar is too heavy."""
    if high < kit.bar_kg:
        return (0.0, 0.0) if high == 0 else None
    heavy = load_bar(high, kit.bar_kg, kit.plates).total_kg
    light = load_bar(max(low, kit.bar_kg), kit.bar_kg, kit.plates).total_kg
    return (light if low else 0.0, heavy)


def _dumbbells(low: float, high: float, kit: Kit) -> Pair | None:
    if high < kit.dumbbell_step:
        return None
    light = max(low, kit.dumbbell_step)
    pair = [dumbbell(kg, kit.dumbbell_step, kit.heaviest_dumbbell) for kg in (light, high)]
    return (min(pair), max(pair))


def _stack(low: float, high: float, kit: Kit) -> Pair | None:
    pair = (step_load(low, kit.machine_step), step_load(high, kit.machine_step))
    return pair if pair[1] or not high else None


_LOADERS: dict[str, Loader] = {"bar": _bar, "dumbbells": _dumbbells, "machine": _stack}
