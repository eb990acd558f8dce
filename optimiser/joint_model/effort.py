"""How hard to search."""

from dataclasses import dataclass, field, replace

from optimiser.domain.rates import Rates
from optimiser.engine.branch_and_bound import SearchLimits
from optimiser.engine.cp_sat_search import Effort

#: Wall-clock guard of a search, in seconds: fixed effort is meant to end it.
GUARD = 600.0
#: Gap at which a usual search ends.
CLOSE = 0.01
#: Gap at which a thorough search ends.
THOROUGH = 0.001
#: Steps of a usual search's tree.
STEPS = 250
#: Part of the gap that is asked of the tree.
HAIR = 0.998
#: Deterministic limit of the search for a first plan.
START = 20.0


@dataclass(frozen=True)
class Settings:
    """How to solve.

    Parameters
    ----------
    seed
        Same seed, same plan.
    fast
        Two racing workers look for a first plan: often sooner, not repeatable.
    seconds
        Wall-clock guard; normally fixed effort ends a search before.
    close
        Gap at which a search ends: 0.01 is one per cent.
    steps
        Steps of the tree after which it ends whatever the gap.
    quick
        Look for a good plan only; its bound is that of the linear relaxation.
    certify
        Have a proof confirmed by another solver.
    workers
        Threads of branch and bound.
    rates
        Exchange rates of the season cost.
    """

    seed: int = 0
    fast: bool = False
    seconds: float = GUARD
    close: float = CLOSE
    steps: int = STEPS
    quick: bool = False
    certify: bool = False
    workers: int = 2
    rates: Rates = field(default_factory=Rates)

    def to_the_end(self, seconds: float | None = None) -> "Settings":
        """Return settings whose search ends with a proof, or with the time."""
        guard = GUARD if seconds is None else seconds
        return replace(self, seconds=guard, close=0.0, steps=10**9)

    def effort(self, deterministic: float = START) -> Effort:
        """Return the effort of a search by CP-SAT."""
        return Effort(deterministic, self.seconds, 2 if self.fast else 1, self.seed)

    def limits(self) -> SearchLimits:
        """Return the limits of branch and bound."""
        return SearchLimits(
            # a hair tighter, as a millionth is taken off every bound
            gap=self.close * HAIR,
            least=0,
            most=self.steps,
            seconds=self.seconds,
            seed=self.seed,
            workers=self.workers,
            seek=False,
            restarts=False,
        )
