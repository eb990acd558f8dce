"""How sure an estimate is: the same fit on resampled residuals."""

from dataclasses import dataclass

import numpy as np

from optimiser.response.grid import FATIGUE, FITNESS, Grid, half_step
from optimiser.response.least_squares import Estimate, estimates, predicted
from optimiser.response.record import Floats

#: Parameters that are estimated.
PARAMETERS = 5
SHARE = 0.90
RESAMPLES = 400


@dataclass(frozen=True)
class Interval:
    """A stretch that holds the true value in nine of ten squads like this one.

    Parameters
    ----------
    low, high
        Ends, in the parameter's unit.
    """

    low: float
    high: float

    @property
    def times(self) -> float:
        """Return how many times the low end the high end is."""
        return self.high / self.low if self.low > 0 else np.inf


def intervals(grid: Grid, results: Floats, found: Estimate, seed: int) -> dict[str, Interval]:
    """Return the interval of each parameter of a scenario, by its name.

    Residuals are resampled with replacement onto the fitted curve (Efron and Tibshirani 1993, An
    Introduction to the Bootstrap; from memory), widened for the parameters already spent. The
    grid's half step is added to each end.
    """
    curve = predicted(grid, found)
    spare = np.sqrt(len(results) / (len(results) - PARAMETERS))
    residuals = (results - curve) * spare
    rng = np.random.default_rng(seed)
    drawn = rng.choice(residuals - residuals.mean(), size=(RESAMPLES, len(results)))
    again = estimates(grid, curve + drawn)
    slow, fast = half_step(FITNESS), half_step(FATIGUE)
    return {
        "tau_fitness": middle([each.tau_fitness for each in again], slow),
        "tau_fatigue": middle([each.tau_fatigue for each in again], fast),
        "ratio": middle([each.ratio for each in again], max(slow, fast)),
    }


def middle(values: list[float], step: float) -> Interval:
    """Return the middle nine tenths; a ratio without any fitness gain stays infinite."""
    ordered = sorted(values)
    tail = int((1 - SHARE) / 2 * len(ordered))
    return Interval(ordered[tail] / step, ordered[-1 - tail] * step)
