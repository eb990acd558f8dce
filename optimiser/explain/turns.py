"""Ways of searching that take turns, as each is at times ten times as fast as the others."""

from collections.abc import Iterator, Sequence
from itertools import count

from optimiser.explain.oracle import Make, core_solver, light_solver, wide_solver

#: With the whole linear relaxation, and from below by cores; both can settle a question.
WAYS: tuple[Make, ...] = (light_solver, core_solver)
#: Deterministic seconds of a first turn.
FIRST_TURN = 0.5
#: How much longer each further turn is, and the first of a way that got there last time.
LONGER = 4
#: Deterministic seconds of a turn that only betters what was found.
BETTER_TURN = 0.6
#: Deterministic seconds that may settle nothing; from then on what was found is only bettered.
PATIENCE = 2.5


class Turns:
    """The order of the ways, for questions that are much like each other.

    Parameters
    ----------
    ways
        The one to be tried first in front.
    """

    def __init__(self, ways: Sequence[Make] = WAYS) -> None:
        self.order = list(ways)
        self._trusted: Make | None = None
        self._in_vain = 0.0

    def each(self) -> Iterator[tuple[Make, float]]:
        """Yield ways, and the deterministic seconds of their turns; without end."""
        for lap in count():
            for make in tuple(self.order):
                trust = LONGER if make is self._trusted else 1
                if self._in_vain < PATIENCE:
                    yield make, FIRST_TURN * trust * LONGER**lap
            yield wide_solver, BETTER_TURN * LONGER**lap

    def won(self, make: Make) -> None:
        """Put a way in front that settled a question."""
        self.order.sort(key=lambda each: each is not make)
        self._trusted = make

    def lost(self, effort: float) -> bool:
        """Take note of a turn that settled nothing; tell whether patience is at its end."""
        self._in_vain += effort
        return self._in_vain >= PATIENCE
