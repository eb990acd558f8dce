"""How well a fit foresees tests it has not seen, beside saying the last result again."""

from dataclasses import dataclass

import numpy as np

from optimiser.response.grid import Grid
from optimiser.response.interval import PARAMETERS
from optimiser.response.least_squares import estimate, predicted
from optimiser.response.record import Record

#: The share of the tests, from the last back, that are foretold one by one.
SHARE = 1 / 3


@dataclass(frozen=True)
class Forecast:
    """Root mean squared errors over the tests foretold, in the unit of the test.

    Parameters
    ----------
    tests
        How many were foretold, each from those before it.
    model, naive
        Error of the fit, and of saying the last result again.
    """

    tests: int
    model: float
    naive: float


def forecast(record: Record, grid: Grid) -> Forecast:
    """Leave the last test out, then the last two, and so on; foretell the first one left out."""
    count = len(record.results)
    first = max(PARAMETERS + 2, count - max(3, round(count * SHARE)))
    model, naive = [], []
    for test in range(first, count):
        seen = Grid(grid.taus, grid.fitness[:, :test], grid.fatigue[:, :test])
        found = estimate(seen, record.results[:test])
        told = predicted(grid, found)[test]
        model.append(told - record.results[test])
        naive.append(record.results[test - 1] - record.results[test])
    return Forecast(len(model), size(model), size(naive))


def size(errors: list[float]) -> float:
    """Return the root mean square of errors."""
    return float(np.sqrt(np.mean(np.square(errors))))
