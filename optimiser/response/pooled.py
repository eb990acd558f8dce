"""One estimate for a squad: athletes share the response, each has a level of their own.

A linear mixed model with a random level by athlete (partial pooling: levels are drawn towards the
squad's by as much as the results say), y = level + own level + k1 fitness - k2 fatigue + error. For
one pair of time constants and one ratio of the variances it is generalised least squares, done by
taking a share of each athlete's mean from everything (Fuller and Battese 1974, Journal of
Econometrics 2(1): 67-78; from memory). Time constants and ratio are profiled on a grid by maximum
likelihood. This is written out in numpy because general mixed-model packages fit what is linear:
they would have to be started anew for each of some ten thousand points of that grid.

Intervals come from drawing whole athletes with replacement, so that those who answer otherwise
than the squad widen them.
"""

from dataclasses import dataclass

import numpy as np

from optimiser.response.fit import (
    LEAST_DAYS,
    LEAST_TESTS,
    Fit,
    flat,
    reasons_after,
    weekly_spread,
)
from optimiser.response.forecast import Forecast, size
from optimiser.response.grid import FATIGUE, FITNESS, Grid, half_step
from optimiser.response.interval import Interval, middle
from optimiser.response.least_squares import Estimate, gains_from, predicted
from optimiser.response.panel import Panel, distinct, tested_days
from optimiser.response.record import Floats, Ints

#: Ratios of the variance between athletes to that of one result that are tried.
RATIOS = np.array([0.0, *np.geomspace(0.05, 500.0, 14)])
DRAWS = 400
#: Share of each athlete's results, from the last back, that is foretold.
SHARE = 1 / 3


@dataclass(frozen=True)
class Pooled:
    """An estimate of a squad, and each athlete's distance from its level."""

    estimate: Estimate
    own: Floats
    ratio: float


def fit_panel(panel: Panel, seed: int = 0) -> Fit:
    """Return the estimate of a squad with its intervals and error, or reasons against it."""
    tests, days = len(panel.results), tested_days(panel)
    early = _reasons_before(panel)
    if early:
        return Fit(tests, days, reasons=early, athletes=len(panel.names))
    grid = panel.grid()
    found = pooled(grid, panel.results, panel.who).estimate
    made = _intervals(grid, panel, seed)
    ahead = _forecast(grid, panel)
    reasons = tuple(reasons_after(found, made, ahead))
    return Fit(tests, days, found, made, ahead, reasons, athletes=len(panel.names))


def _reasons_before(panel: Panel) -> tuple[str, ...]:
    found = []
    count, days = distinct(panel), tested_days(panel)
    if count < LEAST_TESTS:
        found.append(
            f"too few dates: {len(panel.results)} results follow only {count} different histories "
            f"of load, at least {LEAST_TESTS} are needed; log each athlete's own load or test on "
            "more days"
        )
    if days < LEAST_DAYS:
        found.append(f"too short: tests span {days} days, at least {LEAST_DAYS} are needed")
    spread = max(weekly_spread(record) for record in panel.records)
    return (*found, *flat(spread, panel.results))


def pooled(grid: Grid, results: Floats, who: Ints) -> Pooled:
    """Return the most likely parameters over time constants and the ratio of variances."""
    best, likely = None, -np.inf
    counts = np.bincount(who)
    for ratio in RATIOS:
        found, misses = _at(grid, results, who, float(ratio), np.ones((1, len(counts))))
        told = -0.5 * (len(results) * np.log(misses[0]) + np.log1p(counts * ratio).sum())
        if told > likely:
            best, likely = (found[0], float(ratio)), told
    assert best is not None
    estimate, ratio = best
    left = results - predicted(grid, estimate)
    own = np.bincount(who, left, len(counts)) / np.maximum(counts, 1)
    return Pooled(estimate, own * counts * ratio / (1 + counts * ratio), ratio)


def _at(
    grid: Grid, results: Floats, who: Ints, ratio: float, weights: Floats
) -> tuple[list[Estimate], Floats]:
    """Return the best parameters of several squads at one ratio, and the sums of squares left.

    Parameters
    ----------
    weights
        Shape ``(squads, athletes)``: how often each squad has each athlete.
    """
    counts = np.bincount(who)
    belongs = (who[:, None] == np.arange(len(counts))).astype(float)
    share = (1 - 1 / np.sqrt(1 + counts * ratio))[who]
    means = belongs / np.maximum(counts, 1)
    up, down, left = (
        values - share * (values @ means)[:, who]
        for values in (grid.fitness, grid.fatigue, results[None])
    )
    one = (1 - share)[None]

    def total(first: Floats, second: Floats) -> Floats:
        """Return sums of products, shape ``(pairs, squads)``, by way of each athlete's own."""
        summed: Floats = ((first * second) @ belongs) @ weights.T
        return summed

    ones = total(one, one)
    by_up, by_down, by_left = (total(values, one) for values in (up, down, left))
    gains, misses = gains_from(
        total(up, up) - by_up**2 / ones,
        total(down, down) - by_down**2 / ones,
        total(up, down) - by_up * by_down / ones,
        total(up, left) - by_up * by_left / ones,
        total(down, left) - by_down * by_left / ones,
        (total(left, left) - by_left**2 / ones)[0],
    )
    found = []
    for squad, at in enumerate(misses.argmin(axis=0)):
        give, take = (float(value) for value in gains[:, at, squad])
        level = by_left[0, squad] - give * by_up[at, squad] + take * by_down[at, squad]
        slow, fast = (float(value) for value in grid.taus[at])
        found.append(Estimate(float(level / ones[0, squad]), give, take, slow, fast))
    return found, np.maximum(misses.min(axis=0), 1e-12)


def _part(grid: Grid, at: Ints | Floats) -> Grid:
    return Grid(grid.taus, grid.fitness[:, at], grid.fatigue[:, at])


def _intervals(grid: Grid, panel: Panel, seed: int) -> dict[str, Interval]:
    """Return intervals from squads drawn of these athletes."""
    rng, count = np.random.default_rng(seed), len(panel.names)
    drawn = rng.integers(0, count, (DRAWS, count))
    weights = (drawn[:, :, None] == np.arange(count)).sum(axis=1).astype(float)
    ratio = pooled(grid, panel.results, panel.who).ratio
    found, _ = _at(grid, panel.results, panel.who, ratio, weights)
    slow, fast = half_step(FITNESS), half_step(FATIGUE)
    return {
        "tau_fitness": middle([each.tau_fitness for each in found], slow),
        "tau_fatigue": middle([each.tau_fatigue for each in found], fast),
        "ratio": middle([each.ratio for each in found], max(slow, fast)),
    }


def _forecast(grid: Grid, panel: Panel) -> Forecast:
    """Foretell the last third of each athlete's results from everything before."""
    who, results = panel.who, panel.results
    place = np.concatenate([np.arange(len(record.results)) for record in panel.records])
    counts = np.bincount(who)
    seen = place < (counts - np.maximum(1, np.round(counts * SHARE)))[who]
    fit = pooled(_part(grid, np.flatnonzero(seen)), results[seen], who[seen])
    told = predicted(grid, fit.estimate) + fit.own[who]
    last = {int(number): results[seen & (who == number)][-1] for number in np.unique(who)}
    pairs = zip(who[~seen], results[~seen], strict=True)
    naive = [float(last[int(number)] - value) for number, value in pairs]
    return Forecast(int((~seen).sum()), size(list(told[~seen] - results[~seen])), size(naive))
