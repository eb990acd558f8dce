"""One-repetition maximum: estimated from a set, and what share of it a set should use.

Every figure here is a group mean. Trained lifters managed 6 to 26 repetitions with the same
70 % squat (cited in Zourdos et al. 2021), so treat a percentage as a guide.
"""

from collections.abc import Callable
from math import exp
from typing import Literal, get_args

import numpy as np

Equation = Literal["epley", "brzycki", "lombardi", "mayhew", "wathen", "oconner", "lander"]
EQUATIONS: tuple[Equation, ...] = get_args(Equation)

#: Error of an estimate, in per cent of the 1RM (Hutchins and Gearhart 2010: 5.4-6.8 kg on 95 kg).
ESTIMATE_ERROR = (5, 7)

#: Beyond this many repetitions an estimate is not worth printing
#: (Reynolds, Gordon and Robergs 2006, Journal of Strength and Conditioning Research 20(3)).
MOST_REPS = 10

# The load one can lift r times as a factor of the 1RM, each as its author gave it.
_FACTORS: dict[Equation, Callable[[float], float]] = {
    "epley": lambda r: 1 + r / 30,
    "brzycki": lambda r: 36 / (37 - r),
    "lombardi": lambda r: r**0.10,
    "mayhew": lambda r: 100 / (52.2 + 41.9 * exp(-0.055 * r)),
    "wathen": lambda r: 100 / (48.8 + 53.8 * exp(-0.075 * r)),
    "oconner": lambda r: 1 + 0.025 * r,
    "lander": lambda r: 100 / (101.3 - 2.67123 * r),
}

# 1 to 10 are the same in the NSCA's stand-alone load chart and in its textbook. At 12 they clash:
# the chart says 70 %, the textbook 67 % (and 65 % at 15). The textbook is used, as it reaches 15
# (70 % at 11: from memory).
_REPS = (1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 11.0, 12.0, 15.0)
_PERCENT = (100.0, 95.0, 93.0, 90.0, 87.0, 85.0, 83.0, 80.0, 77.0, 75.0, 70.0, 67.0, 65.0)


def one_rm(load: float, reps: int, equation: Equation = "brzycki") -> float:
    """Return the estimated 1RM, in the unit of ``load``.

    The equations miss by 5 to 7 % of the 1RM even in trained lifters. One repetition returns
    the load itself, also where an equation would not. Brzycki is the default because it is the
    lower of the two best known below 10 repetitions.

    Parameters
    ----------
    load
        What was lifted.
    reps
        Repetitions done to failure, 1 to 20; above 10 the equations drift apart.
    equation
        Whose equation.

    Raises
    ------
    ValueError
        If ``load`` is not above 0, ``reps`` lies outside 1 to 20 or the equation is unknown.

    References
    ----------
    Epley (1985); Brzycki (1993); Lombardi (1989); Mayhew et al. (1992); Wathen (1994);
    O'Conner et al. (1989); Lander (1985), as collected in LeSuer et al. (1997), Journal of
    Strength and Conditioning Research 11(4): 211-213 (list from memory).
    """
    if equation not in _FACTORS:
        raise ValueError(f"equation must be one of {', '.join(EQUATIONS)} (got {equation!r})")
    if not 0 < load < float("inf"):
        raise ValueError(f"load must be above 0 (got {load:g})")
    if not 1 <= reps <= 20:
        raise ValueError(f"reps must lie in 1 to 20 (got {reps})")
    return load if reps == 1 else load * _FACTORS[equation](reps)


def percent_for(reps: float, in_reserve: float = 0.0) -> float:
    """Return the percentage of the 1RM for a set that leaves repetitions in reserve.

    Straight lines between the table's rows. Lifters judge the reserve within about one
    repetition up to 5 left, and far worse beyond (Hackett et al. 2017, Journal of Strength and
    Conditioning Research 31(8): 2162-2168).

    Parameters
    ----------
    reps, in_reserve
        Repetitions done and left; together 1 to 15.

    Raises
    ------
    ValueError
        If either is negative or the two do not add up to 1 to 15.

    References
    ----------
    NSCA Essentials of Strength Training and Conditioning (Baechle and Earle), load table;
    reserve scale: Zourdos et al. (2016), Journal of Strength and Conditioning Research 30(1).
    """
    most = reps + in_reserve
    if reps < 0 or in_reserve < 0 or not _REPS[0] <= most <= _REPS[-1]:
        raise ValueError(f"reps and reserve must add up to 1 to 15 (got {reps:g} + {in_reserve:g})")
    return float(np.interp(most, _REPS, _PERCENT))


def reps_at(percent: float) -> float:
    """Return how many repetitions ``percent`` of the 1RM allows; the inverse of the table.

    Parameters
    ----------
    percent
        Percentage of the 1RM, 65 to 100.

    Raises
    ------
    ValueError
        If ``percent`` lies outside the table.

    References
    ----------
    The table of `percent_for`.
    """
    if not _PERCENT[-1] <= percent <= _PERCENT[0]:
        raise ValueError(f"percent must lie in 65 to 100 (got {percent:g})")
    return float(np.interp(percent, _PERCENT[::-1], _REPS[::-1]))


def reserve_at(percent: float, reps: float) -> float:
    """Return the repetitions left after ``reps`` at ``percent`` of the 1RM.

    Below 0 the set asks for more than the table allows. Errors and source as in `reps_at`.
    """
    return reps_at(percent) - reps


def effort(in_reserve: float) -> float:
    """Return the rating of a set, 0-10, that leaves ``in_reserve`` repetitions.

    Raises
    ------
    ValueError
        If ``in_reserve`` lies outside 0 to 10.

    References
    ----------
    Zourdos et al. (2016), Journal of Strength and Conditioning Research 30(1): 267-275.
    """
    if not 0 <= in_reserve <= 10:
        raise ValueError(f"repetitions in reserve must lie in 0 to 10 (got {in_reserve:g})")
    return 10 - in_reserve
