"""Fitness and fatigue for every pair of time constants that is tried."""

from dataclasses import dataclass

import numpy as np

from optimiser.response.record import Floats, Record

#: Time constants tried, in days; bounds are those a scenario's quality can have in practice.
FITNESS = (12.0, 90.0)
FATIGUE = (2.0, 25.0)
STEPS = 40
#: Fitness must outlast fatigue by this factor, or the two cannot be told apart.
APART = 1.5


def half_step(bounds: tuple[float, float]) -> float:
    """Return the factor from a time constant tried to half way to the next."""
    return float((bounds[1] / bounds[0]) ** (0.5 / (STEPS - 1)))


@dataclass(frozen=True)
class Grid:
    """Pairs of time constants and what the log makes of them.

    Parameters
    ----------
    taus
        Shape ``(pairs, 2)``: time constants of fitness and fatigue, in days.
    fitness, fatigue
        Shape ``(pairs, tests)``: the two sums on the morning of each test, in AU, strict: a
        test day's own load does not count.
    """

    taus: Floats
    fitness: Floats
    fatigue: Floats


def make_grid(record: Record) -> Grid:
    """Return the sums for every pair of time constants on a grid even in their logarithm."""
    slow = np.geomspace(*FITNESS, STEPS)
    fast = np.geomspace(*FATIGUE, STEPS)
    sums_slow, sums_fast = _sums(record, slow), _sums(record, fast)
    one, two = np.meshgrid(np.arange(STEPS), np.arange(STEPS), indexing="ij")
    apart = slow[one] >= APART * fast[two]
    one, two = one[apart], two[apart]
    taus = np.stack([slow[one], fast[two]], axis=1)
    return Grid(taus, sums_slow[one], sums_fast[two])


def _sums(record: Record, taus: Floats) -> Floats:
    """Return the decaying sum on the morning of each test, shape ``(taus, tests)``."""
    kept = np.exp(-1 / taus)
    level = record.before() * kept / (1 - kept)
    out = np.zeros((len(taus), len(record.days)))
    for day in range(int(record.days[-1]) + 1):
        out[:, record.days == day] = level[:, None]
        level = (level + record.loads[day]) * kept
    return out
