"""Dated test results, and an athlete as the latest of them before a day show them."""

import datetime as dt
import re
from collections.abc import Iterable

from pydantic import Field

from optimiser.athlete.squad import Athlete, Lift
from optimiser.domain.strict import Strict

#: A load lifted so many times to failure, such as squat_1rm_kg or squat_5rm_kg.
LIFTED = re.compile(r"(?P<key>[a-z][a-z0-9_]*?)_(?P<reps>\d{1,2})rm_kg")
SPLIT = re.compile(r"split_(?P<at>\d+(\.\d+)?)_m_s")
SLED = re.compile(r"sled_(?P<at>\d+(\.\d+)?)_loss_pct")
BODY_MASS = "body_mass_kg"
#: Splits that make a sprint of their own; fewer are laid over the older ones.
WHOLE_SPRINT = 3
#: Weeks after which a test is called old: retests come every 6 to 12 (common practice, no source).
OLD_WEEKS = 12


class Measured(Strict):
    """One result: ``test`` is named like a column of the squad file, or freely (jump_cm)."""

    athlete: str
    date: dt.date
    test: str
    value: float = Field(gt=0, le=1000)


def read_by_cards(test: str) -> bool:
    """Return whether cards work with a test of that name; the others have a trend alone."""
    return test == BODY_MASS or any(kind.fullmatch(test) for kind in (LIFTED, SPLIT, SLED))


def as_measured(athlete: Athlete, results: Iterable[Measured], before: dt.date) -> Athlete:
    """Return an athlete as tested last before a day; what was not tested stays as it was."""
    name = athlete.name.casefold()
    own = sorted(
        (each for each in results if each.athlete.casefold() == name and each.date < before),
        key=lambda each: each.date,
    )
    lifts = {**athlete.lifts, **_lifts(own)}
    changed = {
        "lifts": lifts,
        "splits": _splits(own) or athlete.splits,
        "sled_losses": {**athlete.sled_losses, **_by_number(own, SLED)},
        "body_mass_kg": _mass(own) or athlete.body_mass_kg,
    }
    return athlete.model_copy(update=changed)


def _lifts(own: Iterable[Measured]) -> dict[str, Lift]:
    found: dict[str, Lift] = {}
    for each in own:
        match = LIFTED.fullmatch(each.test)
        if match:
            found[match["key"]] = _lift(each, int(match["reps"]))
    return found


def _lift(result: Measured, reps: int) -> Lift:
    if reps == 1:
        return Lift(one_rm_kg=result.value, tested=result.date)
    return Lift(load_kg=result.value, reps=reps, tested=result.date)


def _splits(own: list[Measured]) -> dict[float, float]:
    """Return the splits of the last day that has a whole sprint."""
    days: dict[dt.date, list[Measured]] = {}
    for each in own:
        if SPLIT.fullmatch(each.test):
            days.setdefault(each.date, []).append(each)
    whole = [day for day, found in days.items() if len(found) >= WHOLE_SPRINT]
    return _by_number(days[max(whole)], SPLIT) if whole else {}


def _by_number(own: Iterable[Measured], pattern: re.Pattern[str]) -> dict[float, float]:
    matches = [(pattern.fullmatch(each.test), each.value) for each in own]
    return {float(match["at"]): value for match, value in matches if match}


def _mass(own: Iterable[Measured]) -> float | None:
    return next((e.value for e in reversed(list(own)) if e.test == BODY_MASS), None)
