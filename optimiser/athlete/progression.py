"""When to add load, and how much."""

from collections.abc import Sequence
from typing import Literal

Build = Literal["smaller", "larger"]
Region = Literal["upper", "lower"]

#: Smallest and largest rise of a lift's load, in per cent
#: (ACSM 2009, Medicine and Science in Sports and Exercise 41(3): 687-708).
STEP = (2.0, 10.0)

_RISE_KG: dict[tuple[Region, Build], tuple[float, float]] = {
    ("upper", "smaller"): (1.0, 2.0),
    ("upper", "larger"): (2.0, 4.0),
    ("lower", "smaller"): (2.0, 4.0),
    ("lower", "larger"): (4.0, 7.0),
}


def two_for_two(extra_reps: Sequence[int]) -> bool:
    """Return True once the last set went two repetitions over target twice running.

    Parameters
    ----------
    extra_reps
        Repetitions above target in the last set of each session, oldest first.

    References
    ----------
    NSCA Essentials of Strength Training and Conditioning, 2-for-2 rule (from memory).
    """
    return len(extra_reps) >= 2 and min(extra_reps[-2:]) >= 2


def rise_kg(region: Region, build: Build) -> tuple[float, float]:
    """Return the smallest and largest rise in kg once `two_for_two` says yes.

    Parameters
    ----------
    region
        Part of the body the lift trains.
    build
        Smaller, weaker, newer; or larger, stronger, trained.

    References
    ----------
    NSCA Essentials of Strength Training and Conditioning, 2-for-2 rule (from memory).
    """
    return _RISE_KG[region, build]
