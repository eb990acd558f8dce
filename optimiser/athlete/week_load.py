"""Session-RPE load: what a session cost, and how even a week was."""

from collections.abc import Sequence
from statistics import fmean, stdev

from optimiser.domain.strict import Strict


class WeekLoad(Strict):
    """A week's load.

    Parameters
    ----------
    total, mean
        Sum and daily mean, in AU.
    monotony
        Mean over standard deviation, unitless; None if undefined.
    strain
        Total times monotony, in AU; None if undefined.
    """

    total: float
    mean: float
    monotony: float | None
    strain: float | None


def week_load(daily: Sequence[float]) -> WeekLoad:
    """Return total, monotony and strain of the days of a week.

    The sample standard deviation (n - 1) is used; the papers do not say which, and with the
    population one both figures come out 8 % higher over seven days. Both are undefined, and
    not infinite, when all days are equal. They are flags to look at, never limits.

    Parameters
    ----------
    daily
        Load of each day in AU, rest days as 0; at least two days.

    Raises
    ------
    ValueError
        If there are fewer than two days or a load is negative or not a number.

    References
    ----------
    Foster (1998), Medicine and Science in Sports and Exercise 30(7): 1164-1168.
    """
    if len(daily) < 2:
        raise ValueError(f"a week must have at least two days (got {len(daily)})")
    _check_loads(daily)
    total, mean = float(sum(daily)), fmean(daily)
    if min(daily) == max(daily):
        return WeekLoad(total=total, mean=mean, monotony=None, strain=None)
    monotony = mean / stdev(daily)
    return WeekLoad(total=total, mean=mean, monotony=monotony, strain=total * monotony)


def _check_loads(daily: Sequence[float]) -> None:
    wrong = [load for load in daily if not 0 <= load < float("inf")]
    if wrong:
        raise ValueError(f"a day's load must be 0 AU or more (got {wrong[0]:g})")
