"""Large-neighbourhood search: most of a solution is held, the rest is searched again by HiGHS.

A first solution: what the linear relaxation has at whole numbers and would be dear elsewhere is
held (Berthold 2014, Operations Research Letters 42(3): 239-242, from memory; here by reduced cost).
Three neighbourhoods: a window of weeks; what the linear relaxation sees otherwise (Danna, Rothberg
and Le Pape 2005, Mathematical Programming 102(1): 71-90); and that with every choice that is
nearly free in the relaxation. The last finds what windows cannot, as it spans the whole season.
HiGHS keeps the model and only bounds change from one to the next.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from threading import Event
from typing import Any

import highspy
import numpy as np
import numpy.typing as npt
from highspy import cb

from optimiser.board.model import Model
from optimiser.engine.highs import Call, SilentHighs
from optimiser.engine.interrupts import interruptible
from optimiser.engine.objective import value_of
from optimiser.engine.row_strengthening import strengthened
from optimiser.engine.scaling import THOUSAND, program_of, values_of, warm_start

Mask = npt.NDArray[np.bool_]
Floats = npt.NDArray[np.float64]

#: Half of the one unit by which costs differ, in thousands.
CLOSED = 0.5e-3
#: A relaxed value further than this from a solution's is another choice.
OTHER = 0.05
#: A relaxed value further than this from a whole number is between two.
BETWEEN = 1e-6
#: Part of a relaxation's value that tolerances may have made up.
SLIP = 1e-6


@dataclass(frozen=True)
class Reach:
    """How far one neighbourhood is searched.

    Parameters
    ----------
    nodes
        Most nodes of its tree.
    gap
        Share of the cost that is not worth searching for.
    seek
        Look for solutions around the best one inside it too.
    guard
        Wall-clock guard, in seconds; the nodes bind first.
    """

    nodes: int = 100
    gap: float = 0.0
    seek: bool = False
    guard: float = 600.0


@dataclass(frozen=True)
class Relaxation:
    """The linear relaxation: values and reduced costs by variable, and the bound it gives.

    Parameters
    ----------
    bound
        Lower bound of the model's cost; 0 if there is none.
    """

    values: Floats
    reduced: Floats
    bound: float


class Neighbourhoods:
    """A model of which all but a part is held, other parts at each search.

    Parameters
    ----------
    model
        Its rows are tightened first.
    groups
        Choices by week; what spans weeks is in the group of each of them. All else follows.
    """

    def __init__(self, model: Model, groups: Sequence[Sequence[int]], *, seed: int = 0) -> None:
        self.model, self.groups = model, groups
        program = program_of(strengthened(model))
        self._size = len(model.lower)
        self._lower, self._upper = np.array(program.col_lower_), np.array(program.col_upper_)
        self._choices = self._of({var for group in groups for var in group})
        self._highs = _set_up(seed)
        self._highs.passModel(program)
        self._stop = Event()
        places = (
            cb.HighsCallbackType.kCallbackMipInterrupt,
            cb.HighsCallbackType.kCallbackSimplexInterrupt,
        )
        self._highs.listen(dict.fromkeys(places, _ender(self._stop)))

    def relaxed(self, seconds: float = 600.0) -> Relaxation:
        """Return the linear relaxation of the whole model.

        Raises
        ------
        KeyboardInterrupt
            On Ctrl-C.
        """
        self._bounds(self._lower, self._upper)
        self._highs.setOptionValue("solve_relaxation", True)
        self._run(seconds)
        self._highs.setOptionValue("solve_relaxation", False)
        found, value = self._highs.getSolution(), self._highs.getInfo().objective_function_value
        optimal = self._highs.getModelStatus() == highspy.HighsModelStatus.kOptimal
        bound = THOUSAND * (value - SLIP * max(1.0, abs(value))) if optimal else 0.0
        return Relaxation(np.array(found.col_value), np.array(found.col_dual), bound)

    def nearly_free(self, relaxed: Relaxation, share: float) -> Mask:
        """Return the choices of least reduced cost: that share of all."""
        size = np.abs(relaxed.reduced)
        most = float(np.quantile(size[self._choices], share)) if self._choices.any() else 0.0
        return np.asarray(size <= most)

    def guided(self, relaxed: Relaxation, share: float, reach: Reach) -> list[int]:
        """Return a solution found without another one, or nothing.

        That share of all whole numbers is free which is least dear by the relaxation, together with
        what the relaxation leaves between two; all others are held where it has them.

        Raises
        ------
        KeyboardInterrupt
            On Ctrl-C.
        """
        whole = np.round(relaxed.values)
        between = np.abs(relaxed.values - whole) > BETWEEN
        counted = self._of(set(range(self._size)) - self.model.fine)
        size = np.abs(relaxed.reduced)
        held = counted & (size > float(np.quantile(size[counted], share))) & ~between
        lower, upper = self._lower.copy(), self._upper.copy()
        lower[held] = upper[held] = np.clip(whole[held], lower[held], upper[held])
        self._bounds(lower, upper)
        self._reach(reach)
        self._highs.clearSolver()
        self._run(reach.guard)
        found = self._highs.getSolution()
        return values_of(found.col_value, self.model) if found.value_valid else []

    def other(self, relaxed: Relaxation, values: Sequence[int]) -> Mask:
        """Return the choices that the relaxation makes otherwise than a solution."""
        return np.asarray(np.abs(relaxed.values - self._full(values)) > OTHER)

    def window(self, weeks: range) -> Mask:
        """Return the choices of some weeks and none that also speaks of others."""
        outside = [group for week, group in enumerate(self.groups) if week not in weeks]
        return ~self._of({var for group in outside for var in group})

    def improved(self, values: list[int], free: Mask, reach: Reach) -> list[int]:
        """Return the best solution found with all choices held that are not ``free``.

        Raises
        ------
        KeyboardInterrupt
            On Ctrl-C.
        """
        held = self._choices & ~free
        lower, upper, full = self._lower.copy(), self._upper.copy(), self._full(values)
        lower[held] = upper[held] = full[held]
        self._bounds(lower, upper)
        self._reach(reach)
        warm_start(self._highs, self.model, dict(enumerate(values)))
        self._run(reach.guard)
        found = self._highs.getSolution()
        new = values_of(found.col_value, self.model) if found.value_valid else values
        return min(values, new, key=lambda each: value_of(self.model, each))

    def _of(self, variables: Collection[int]) -> Mask:
        found = np.zeros(len(self._lower), dtype=bool)
        found[sorted(variables)] = True
        return found

    def _full(self, values: Sequence[int]) -> Floats:
        full = np.zeros(len(self._lower))
        full[: self._size] = values
        return full

    def _bounds(self, lower: Floats, upper: Floats) -> None:
        every = np.arange(len(lower), dtype=np.int32)
        self._highs.changeColsBounds(len(lower), every, lower, upper)

    def _reach(self, reach: Reach) -> None:
        for name, value in {
            "mip_max_nodes": reach.nodes,
            "mip_rel_gap": reach.gap,
            "mip_heuristic_effort": 0.1 if reach.seek else 0.0,
            "mip_heuristic_run_rins": reach.seek,
        }.items():
            self._highs.setOptionValue(name, value)

    def _run(self, seconds: float) -> None:
        # its clock runs on from one search to the next
        self._highs.setOptionValue("time_limit", self._highs.getRunTime() + seconds)
        _, pressed = interruptible(self._highs.run, self._stop.set)
        if pressed:
            raise KeyboardInterrupt


def _ender(stop: Event) -> Call:
    """Return what ends a search once a key was pressed.

    It knows no neighbourhoods: a solver that led back to what holds it would never be let go of.
    """

    def check(_: Any, into: Any) -> None:
        if stop.is_set():
            into.user_interrupt = True

    return check


def _set_up(seed: int) -> SilentHighs:
    return SilentHighs(
        random_seed=seed,
        mip_abs_gap=CLOSED,
        mip_pscost_minreliable=1,
        mip_allow_restart=False,
        mip_heuristic_run_rens=False,
        mip_heuristic_run_root_reduced_cost=False,
        mip_heuristic_run_feasibility_jump=False,
    )
