"""The two-component impulse response in its general form, day by day, to hold ours against.

Every load raises fitness and fatigue at once; both fade exponentially, fatigue faster. Published
numbers use the *strict* sum, in which a day's load counts from the next day on;
``optimiser.response.readiness`` uses the *inclusive* sum, in which it counts undecayed on its own
day. The two differ by exactly that day's load times ``fitness_gain - fatigue_gain``.

Calvert, Banister, Savage and Bach (1976), IEEE Trans. SMC 6(2): 94-102; Morton, Fitz-Clarke and
Banister (1990), J Appl Physiol 69: 1171-7; Fitz-Clarke, Morton and Banister (1991), J Appl Physiol
71: 1151-8.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, expm1, log

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True)
class Response:
    """What a unit of load gives and takes.

    Parameters
    ----------
    fitness_gain, fatigue_gain
        Effect of one unit of load, in units of performance (k1 and k2).
    tau_fitness, tau_fatigue
        Time constants in days; fatigue's is the shorter.

    Raises
    ------
    ValueError
        If a gain is not above 0 or the time constants do not fit each other.
    """

    fitness_gain: float
    fatigue_gain: float
    tau_fitness: float
    tau_fatigue: float

    def __post_init__(self) -> None:
        if min(self.fitness_gain, self.fatigue_gain) <= 0:
            raise ValueError(
                f"gains must be above 0 (got {self.fitness_gain:g} and {self.fatigue_gain:g})"
            )
        if not 0 < self.tau_fatigue < self.tau_fitness:
            raise ValueError(
                "tau_fatigue must be above 0 and shorter than tau_fitness "
                f"(got {self.tau_fatigue:g} and {self.tau_fitness:g} days)"
            )

    def influence(self, days: npt.ArrayLike) -> Floats:
        """Return what a unit of load does some days later, any shape, in units of performance."""
        gone = np.asarray(days, dtype=np.float64)
        fitness = self.fitness_gain * np.exp(-gone / self.tau_fitness)
        fatigue = self.fatigue_gain * np.exp(-gone / self.tau_fatigue)
        return np.asarray(fitness - fatigue, dtype=np.float64)

    def neutral_day(self) -> float:
        """Return the days before an event after which load does harm on the day (t_n)."""
        return self._spread() * log(self.fatigue_gain / self.fitness_gain)

    def best_day(self) -> float:
        """Return the days before an event at which a unit of load helps most (t_g)."""
        return self._spread() * log(
            self.fatigue_gain * self.tau_fitness / (self.fitness_gain * self.tau_fatigue)
        )

    def _spread(self) -> float:
        both = self.tau_fitness * self.tau_fatigue
        return both / (self.tau_fitness - self.tau_fatigue)

    def components(
        self, loads: Sequence[float], day: int, *, inclusive: bool = False
    ) -> tuple[float, float]:
        """Return fitness and fatigue on ``day`` after daily ``loads`` from day 0.

        Gains are counted in, so that performance is the first less the second.

        Parameters
        ----------
        inclusive
            Count the load of ``day`` itself, undecayed.
        """
        before = np.arange(len(loads)) <= day if inclusive else np.arange(len(loads)) < day
        given = np.asarray(loads, dtype=np.float64)[before]
        gone = day - np.arange(len(given))
        fitness = self.fitness_gain * float(given @ np.exp(-gone / self.tau_fitness))
        fatigue = self.fatigue_gain * float(given @ np.exp(-gone / self.tau_fatigue))
        return fitness, fatigue

    def performance(self, loads: Sequence[float], day: int, *, inclusive: bool = False) -> float:
        """Return fitness less fatigue on ``day``, in units of performance."""
        fitness, fatigue = self.components(loads, day, inclusive=inclusive)
        return fitness - fatigue

    def steady(self, every: int = 1, *, inclusive: bool = False) -> tuple[float, float]:
        """Return the fitness and fatigue to which a unit of load every so many days leads."""
        fitness = self.fitness_gain / expm1(every / self.tau_fitness)
        fatigue = self.fatigue_gain / expm1(every / self.tau_fatigue)
        if not inclusive:
            return fitness, fatigue
        return fitness + self.fitness_gain, fatigue + self.fatigue_gain

    def after_step(self, fraction: float, days: float, every: int = 1) -> float:
        """Return performance ``days`` after load falls from its steady state to ``fraction``."""
        fitness, fatigue = self.steady(every)
        fit_left, tired_left = exp(-days / self.tau_fitness), exp(-days / self.tau_fatigue)
        fit = fitness * (fraction + (1 - fraction) * fit_left)
        return fit - fatigue * (fraction + (1 - fraction) * tired_left)

    def best_step(self, every: int = 1) -> float:
        """Return the best length of a step taper from the steady state, in days.

        It does not depend on how deep the step is.
        """
        fitness, fatigue = self.steady(every)
        return self._spread() * log(fatigue * self.tau_fitness / (fitness * self.tau_fatigue))


#: The parameters used for teaching (Morton et al. 1990; values from memory). Every session of the
#: last 16 days does harm with them: too slow for a sport that plays weekly.
TEACHING = Response(fitness_gain=1, fatigue_gain=2, tau_fitness=45, tau_fatigue=15)
