"""Estimate a quality from its record, or say why the record cannot carry it.

The model is the two-component impulse response (Calvert, Banister, Savage and Bach 1976, IEEE
Trans. SMC 6(2): 94-102). Its parameters are hard to identify and drift from block to block
(Hellard et al. 2006, J Sports Sci 24(5): 509-20, from memory; Baker et al. 2020, J Phys Act Res
5(2): 91-9), so an estimate is refused rather than given without ground.
"""

from dataclasses import dataclass

import numpy as np

from optimiser.response.forecast import Forecast, forecast
from optimiser.response.grid import FATIGUE, FITNESS, make_grid
from optimiser.response.interval import Interval, intervals
from optimiser.response.least_squares import Estimate, estimate
from optimiser.response.record import Floats, Record

LEAST_TESTS = 15
LEAST_DAYS = 84
#: Weekly loads must vary by this share of their mean (standard deviation over mean).
LEAST_SPREAD = 0.15
#: An interval this many times as high as low says next to nothing.
WIDEST = 4.0
#: The largest ratio a quality of a scenario takes.
MOST_RATIO = 10.0


@dataclass(frozen=True)
class Fit:
    """What a record gave.

    Parameters
    ----------
    estimate, intervals, forecast
        Missing where the record could not carry them.
    reasons
        Why the estimate is refused; empty if it stands.
    athletes
        That were pooled; 0 if the squad's means were used.
    """

    tests: int
    days: int
    estimate: Estimate | None = None
    intervals: dict[str, Interval] | None = None
    forecast: Forecast | None = None
    reasons: tuple[str, ...] = ()
    athletes: int = 0


def fit_quality(record: Record, seed: int = 0) -> Fit:
    """Return the estimate of one quality with its interval and error, or reasons against it."""
    tests = len(record.results)
    span = int(record.days[-1] - record.days[0]) + 1
    early = reasons_before(record)
    if early:
        return Fit(tests, span, reasons=early)
    grid = make_grid(record)
    found = estimate(grid, record.results)
    made = intervals(grid, record.results, found, seed)
    ahead = forecast(record, grid)
    return Fit(tests, span, found, made, ahead, tuple(reasons_after(found, made, ahead)))


def reasons_before(record: Record) -> tuple[str, ...]:
    """Return why nothing can be estimated from a record, by looking at it alone."""
    found = []
    tests, span = len(record.results), int(record.days[-1] - record.days[0]) + 1
    if tests < LEAST_TESTS:
        found.append(f"too few tests: {tests}, at least {LEAST_TESTS} are needed")
    if span < LEAST_DAYS:
        found.append(f"too short: tests span {span} days, at least {LEAST_DAYS} are needed")
    return (*found, *flat(weekly_spread(record), record.results))


def flat(spread: float, results: Floats) -> list[str]:
    """Return what is the matter with loads or results that hardly vary; nothing if they do.

    Parameters
    ----------
    spread
        Of weekly load: standard deviation over mean, unitless.
    results
        Of all tests, in their own unit.
    """
    found = []
    if spread < LEAST_SPREAD:
        found.append(
            f"flat load: weeks vary by {100 * spread:.0f} %, at least {100 * LEAST_SPREAD:.0f} % "
            "are needed to tell what it does"
        )
    if np.ptp(results) <= 1e-9 * max(1.0, float(np.abs(results).max())):
        found.append("flat results: every test came out the same")
    return found


def weekly_spread(record: Record) -> float:
    """Return the standard deviation of weekly load over its mean, up to the last test; unitless."""
    weeks = record.loads[: (int(record.days[-1]) + 1) // 7 * 7].reshape(-1, 7).sum(axis=1)
    if len(weeks) < 2 or weeks.mean() <= 0:
        return 0.0
    return float(weeks.std() / weeks.mean())


def reasons_after(found: Estimate, made: dict[str, Interval], ahead: Forecast) -> list[str]:
    """Return why an estimate is refused, by looking at it, its intervals and its error."""
    reasons = []
    if found.fitness_gain <= 0:
        return ["load does not raise the results: no gain above 0 fits them"]
    if ahead.model >= ahead.naive:
        reasons.append(
            f"no better than saying the last result again: error {ahead.model:.3g} against "
            f"{ahead.naive:.3g} over the last {ahead.tests} tests"
        )
    for name, (low, high) in (("tau_fitness", FITNESS), ("tau_fatigue", FATIGUE)):
        interval = made[name]
        if interval.times >= WIDEST:
            reasons.append(
                f"{name} could be anything from {interval.low:.0f} to {interval.high:.0f} days"
            )
        elif interval.low <= low * 1.01 or interval.high >= high * 0.99:
            reasons.append(f"{name} runs into the limit of {low:g} to {high:g} days that is tried")
    if found.fatigue_gain <= 0:
        reasons.append("no fatigue shows in the results")
    return reasons
