"""Sets that were logged, as what they tell of an athlete's 1RM beside the last test."""

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from math import sqrt
from statistics import fmean

from optimiser.athlete.exercise import Exercise
from optimiser.athlete.lift_load import MEASURED_ERROR, strength
from optimiser.athlete.measured import OLD_WEEKS
from optimiser.athlete.squad import Athlete, Lift
from optimiser.athlete.strength import MOST_REPS, Equation, one_rm
from optimiser.progress.done_session import DoneSession

#: Means of Epley's (1985) and Brzycki's (1993) equations are used for sets.
EQUATIONS: tuple[Equation, ...] = ("epley", "brzycki")
#: Error of an estimate from a set to failure, in per cent: the middle of 5-7 (Hutchins and Gearhart
#: 2010).
SET_ERROR = 6.0
#: Repetitions in reserve are judged within about one up to so many (Hackett et al. 2017, Journal of
#: Strength and Conditioning Research 31(8): 2162-2168); one is about 3 % of the 1RM.
JUDGED, A_REPETITION = 5.0, 3.0
#: Days in which logged sets speak of today, and points of per cent that a test may be off by for
#: each week of its age (engineering choices).
DAYS, DRIFT = 42, 0.5
#: Per cent from what is known beyond which a set is taken for a slip of the pen.
SLIP = 20.0


def with_logged(
    athlete: Athlete,
    sessions: Iterable[DoneSession],
    exercises: Mapping[str, Exercise],
    before: dt.date,
) -> Athlete:
    """Return an athlete as tests and the sets logged before a day show them.

    Each day counts by its best set, and all days together as one estimate, as sets of one athlete
    share their error. With the last test it makes one, each weighed by its error; a test loses
    weight as it grows old. Sets that do not say what was left tell too little and are passed over.
    """
    lifts = dict(athlete.lifts)
    for key, sets in _by_lift(athlete, sessions, exercises, before).items():
        if updated := _updated(lifts.get(key), sets, before):
            lifts[key] = updated
    return athlete.model_copy(update={"lifts": lifts})


def estimate_1rm(session: DoneSession) -> float:
    """Return the 1RM in kg that one logged set speaks of: the mean of two equations."""
    assert session.kg is not None
    assert session.reps is not None
    times = round(session.reps + (session.left or 0.0))
    return fmean(one_rm(session.kg, times, equation) for equation in EQUATIONS)


def _by_lift(
    athlete: Athlete,
    sessions: Iterable[DoneSession],
    exercises: Mapping[str, Exercise],
    before: dt.date,
) -> dict[str, list[DoneSession]]:
    """Return the sets that tell something, by the lift they tell of."""
    found: dict[str, list[DoneSession]] = {}
    for each in sessions:
        exercise = exercises.get(each.exercise or "")
        if exercise is None or each.who.casefold() != athlete.name.casefold():
            continue
        recent = dt.timedelta(0) < before - each.date <= dt.timedelta(days=DAYS)
        if recent and _tells(each, exercise):
            found.setdefault(each.exercise or "", []).append(each)
    return found


def _tells(session: DoneSession, exercise: Exercise) -> bool:
    if session.left is None or session.reps is None or exercise.fast or exercise.of:
        return False
    return session.left <= JUDGED and session.reps + session.left <= MOST_REPS


def _updated(lift: Lift | None, sets: Sequence[DoneSession], before: dt.date) -> Lift | None:
    """Return a lift by its test and by the sets after it; None of nothing."""
    known = strength(lift) if lift else None
    after = lift.tested if lift and lift.tested else dt.date.min
    later = [each for each in sets if each.date > after]
    usable = [each for each in later if known is None or _near(estimate_1rm(each), known.kg)]
    slips = tuple(_slip(each) for each in later if each not in usable)
    if not usable:
        return lift and lift.model_copy(update={"slips": slips})
    found = _of_days(usable)
    if lift is not None and known is not None:
        found = _pooled((known.kg, _test_error(lift, before)), found)
    return Lift(
        one_rm_kg=round(found[0], 1),
        tested=lift.tested if lift else None,
        logged=max(each.date for each in usable),
        error=round(found[1], 1),
        slips=slips,
    )


def _of_days(sets: Sequence[DoneSession]) -> tuple[float, float]:
    """Return the mean of each day's best set in kg, and its error in per cent."""
    best: dict[dt.date, tuple[float, float]] = {}
    for each in sets:
        error = sqrt(SET_ERROR**2 + (A_REPETITION if each.left else 0.0) ** 2)
        best[each.date] = max(best.get(each.date, (0.0, 0.0)), (estimate_1rm(each), error))
    return fmean(kg for kg, _ in best.values()), fmean(error for _, error in best.values())


def _pooled(one: tuple[float, float], other: tuple[float, float]) -> tuple[float, float]:
    """Return two estimates as one, each weighed by the inverse square of its error."""
    weights = [error**-2 for _, error in (one, other)]
    mean = (weights[0] * one[0] + weights[1] * other[0]) / sum(weights)
    return mean, sum(weights) ** -0.5


def _test_error(lift: Lift, before: dt.date) -> float:
    """Return the error of a test in per cent, by its age; one without a date is called old."""
    error = float(MEASURED_ERROR) if lift.one_rm_kg is not None else SET_ERROR
    weeks = (before - lift.tested).days / 7 if lift.tested else OLD_WEEKS
    return sqrt(error**2 + (DRIFT * weeks) ** 2)


def _near(kg: float, known: float) -> bool:
    return abs(kg - known) <= SLIP / 100 * known


def _slip(session: DoneSession) -> str:
    name = (session.exercise or "").replace("_", " ")
    return (
        f"{name} {session.kg:g} kg x {session.reps} with {session.left:g} left, logged on "
        f"{session.date}, is more than {SLIP:g} % off the last test and not used: correct it or "
        "test again"
    )
