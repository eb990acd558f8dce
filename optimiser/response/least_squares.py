"""Bounded least squares: for each pair of time constants the best level and gains, none below 0."""

from dataclasses import dataclass

import numpy as np

from optimiser.response.grid import Grid
from optimiser.response.record import Floats

#: Below this share of what the two sums hold on their own they count as one.
ALIKE = 1e-9


@dataclass(frozen=True)
class Estimate:
    """The parameters of one quality.

    Parameters
    ----------
    level
        Result without training, in the unit of the test.
    fitness_gain, fatigue_gain
        What one AU gives and takes, in the unit of the test; neither is below 0.
    tau_fitness, tau_fatigue
        Time constants, in days.
    """

    level: float
    fitness_gain: float
    fatigue_gain: float
    tau_fitness: float
    tau_fatigue: float

    @property
    def ratio(self) -> float:
        """Return the fatigue gain over the fitness gain (k2 / k1)."""
        return self.fatigue_gain / self.fitness_gain if self.fitness_gain else np.inf


def estimate(grid: Grid, results: Floats) -> Estimate:
    """Return the parameters with the least sum of squares."""
    return estimates(grid, results[None, :])[0]


def estimates(grid: Grid, series: Floats) -> list[Estimate]:
    """Return the best parameters of several series of results at once.

    Parameters
    ----------
    series
        Shape ``(series, tests)``.
    """
    gains, misses = gains_of(
        grid.fitness - grid.fitness.mean(axis=1, keepdims=True),
        grid.fatigue - grid.fatigue.mean(axis=1, keepdims=True),
        series - series.mean(axis=1, keepdims=True),
    )
    best = misses.argmin(axis=0)
    found = []
    for number, at in enumerate(best):
        give, take = gains[:, at, number]
        middle = series[number].mean() - give * grid.fitness[at].mean()
        middle += take * grid.fatigue[at].mean()
        slow, fast = grid.taus[at]
        found.append(Estimate(*map(float, (middle, give, take, slow, fast))))
    return found


def predicted(grid: Grid, found: Estimate) -> Floats:
    """Return the results that parameters on the grid predict, shape ``(tests,)``."""
    at = int(np.abs(grid.taus - [found.tau_fitness, found.tau_fatigue]).sum(axis=1).argmin())
    up, down = found.fitness_gain * grid.fitness[at], found.fatigue_gain * grid.fatigue[at]
    curve: Floats = found.level + up - down
    return curve


def gains_of(up: Floats, down: Floats, left: Floats) -> tuple[Floats, Floats]:
    """Return gains ``(2, pairs, series)`` and sums of squares ``(pairs, series)``.

    The two gains have four cases: both free, either at 0, both at 0. The best case that is allowed
    counts.

    Parameters
    ----------
    up, down
        Shape ``(pairs, tests)``: the two sums, with the level taken out.
    left
        Shape ``(series, tests)``: results, with the level taken out.
    """
    return gains_from(
        (up**2).sum(axis=1)[:, None],
        (down**2).sum(axis=1)[:, None],
        (up * down).sum(axis=1)[:, None],
        up @ left.T,
        down @ left.T,
        (left**2).sum(axis=1),
    )


def gains_from(
    uu: Floats, dd: Floats, ud: Floats, ul: Floats, dl: Floats, whole: Floats
) -> tuple[Floats, Floats]:
    """Return the same from sums of products.

    Parameters
    ----------
    uu, dd, ud
        Shape ``(pairs, series)``, or ``(pairs, 1)`` if they are those of all series.
    ul, dl
        With the results, shape ``(pairs, series)``.
    whole
        Of the results with themselves, shape ``(series,)``.
    """
    cases = [_both(uu, dd, ud, ul, dl), _one(uu, ul, 0), _one(dd, -dl, 1)]
    gains, misses = np.zeros((2, *ul.shape)), np.broadcast_to(whole, ul.shape).copy()
    for give, take in cases:
        miss = whole - 2 * (give * ul - take * dl)
        miss += give**2 * uu + take**2 * dd - 2 * give * take * ud
        better = (give >= 0) & (take >= 0) & (miss < misses)
        misses = np.where(better, miss, misses)
        gains = np.where(better, np.stack([give, take]), gains)
    return gains, misses


def _both(uu: Floats, dd: Floats, ud: Floats, ul: Floats, dl: Floats) -> tuple[Floats, Floats]:
    det = uu * dd - ud**2
    det = np.where(det > ALIKE * uu * dd, det, np.inf)
    return (ul * dd - dl * ud) / det, (ul * ud - dl * uu) / det


def _one(squares: Floats, products: Floats, place: int) -> tuple[Floats, Floats]:
    alone = products / np.where(squares > 0, squares, np.inf)
    nothing = np.zeros_like(alone)
    return (alone, nothing) if place == 0 else (nothing, alone)
