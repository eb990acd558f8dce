"""Improve a solution window by window: all but a few weeks are held, those are searched again.

HiGHS keeps the model and only bounds change from window to window: building the model anew for each
took as long as the search. Windows are so small that restarts and its own heuristics do not pay.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from threading import Event
from typing import Any

import numpy as np
from highspy import cb

from optimiser.board.model import Model
from optimiser.engine.heard import heard
from optimiser.engine.hull import hulled
from optimiser.engine.quiet import Quiet
from optimiser.engine.search import Effort
from optimiser.engine.thousands import program_of, suggest, values_of
from optimiser.engine.value import value_of

#: Weeks in the windows of each round over the season.
WIDTHS = (8, 8, 12, 16)
#: Most nodes of the tree of one window.
NODES = 100
#: Iterations of the simplex method that count as one deterministic second.
ITERATIONS = 10_000
#: Wall-clock guard of one window, in seconds; its nodes bind first.
GUARD = 5.0
#: Half of the one unit by which costs differ, in thousands.
CLOSED = 0.5e-3


@dataclass(frozen=True)
class Window:
    """How far one window is searched.

    Parameters
    ----------
    nodes
        Most nodes of its tree.
    gap
        Share of the whole cost that is not worth searching for.
    guard
        Wall-clock guard, in seconds; the nodes bind first.
    """

    nodes: int = NODES
    gap: float = 0.0
    guard: float = GUARD


USUAL = Window()


def improve(
    model: Model,
    values: list[int],
    groups: Sequence[Sequence[int]],
    effort: Effort,
    *,
    widths: Sequence[int] = WIDTHS,
    halt: Callable[[], bool] = lambda: False,
    each: Window = USUAL,
) -> tuple[list[int], float]:
    """Return a solution at least as good, and the deterministic time used.

    Parameters
    ----------
    groups
        Variables by week; all those outside the window are held at their values.
    widths
        Weeks in the windows of each round over the season; windows overlap by half.
    halt
        Asked before each window; True ends the search.
    each
        How far one window is searched.

    Raises
    ------
    KeyboardInterrupt
        On Ctrl-C.
    """
    windows = _Windows(model, groups, effort, each)
    best, cost = values, value_of(model, values)
    for turn, width in enumerate(widths):
        first = -(width // 4) * (turn % 2)
        for start in range(first, len(groups), max(1, width // 2)):
            if windows.used >= effort.deterministic or halt():
                return best, windows.used
            found = windows.searched(best, range(start, start + width))
            if found and (new := value_of(model, found)) < cost:
                best, cost = found, new
    return best, windows.used


class _Windows:
    """A model of which all but a few weeks are held, other weeks at each search.

    Parameters
    ----------
    groups
        Variables by week.
    """

    def __init__(
        self,
        model: Model,
        groups: Sequence[Sequence[int]],
        effort: Effort,
        each: Window = USUAL,
    ) -> None:
        self.model = model
        self.used = 0.0
        self._groups = groups
        program = program_of(hulled(model))
        self._lower, self._upper = np.array(program.col_lower_), np.array(program.col_upper_)
        self._highs = _set_up(effort, each)
        self._highs.passModel(program)
        self._stop = Event()
        self._highs.listen({cb.HighsCallbackType.kCallbackMipInterrupt: self._check})

    def _check(self, _: Any, into: Any) -> None:
        """End the window under way once a key was pressed."""
        if self._stop.is_set():
            into.user_interrupt = True

    def searched(self, values: list[int], weeks: range) -> list[int]:
        """Return what the search of a window found, or nothing."""
        outside = [group for week, group in enumerate(self._groups) if week not in weeks]
        held = [var for group in outside for var in group]
        self._hold(values, held)
        suggest(self._highs, self.model, dict(enumerate(values)))
        _, pressed = heard(self._highs.run, self._stop.set)
        if pressed:
            raise KeyboardInterrupt
        self.used += self._highs.getInfo().simplex_iteration_count / ITERATIONS
        found = self._highs.getSolution()
        return values_of(found.col_value, self.model) if found.value_valid else []

    def _hold(self, values: list[int], held: list[int]) -> None:
        lower, upper = self._lower.copy(), self._upper.copy()
        lower[held] = upper[held] = [values[var] for var in held]
        every = np.arange(len(lower), dtype=np.int32)
        self._highs.changeColsBounds(len(lower), every, lower, upper)


def _set_up(effort: Effort, each: Window) -> Quiet:
    return Quiet(
        time_limit=each.guard,
        random_seed=effort.seed,
        mip_rel_gap=each.gap,
        mip_abs_gap=CLOSED,
        mip_max_nodes=each.nodes,
        mip_pscost_minreliable=1,
        mip_allow_restart=False,
        mip_heuristic_effort=0.0,
        mip_heuristic_run_rins=False,
        mip_heuristic_run_rens=False,
        mip_heuristic_run_root_reduced_cost=False,
        mip_heuristic_run_feasibility_jump=False,
    )
