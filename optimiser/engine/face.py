"""Large models whose relaxation is tight: only what costs no more than it is searched.

A variable that leaves the bound at which it has a reduced cost makes a solution dearer than the
relaxation. With these held, a season of two years has a sixth of its variables left, and the search
has only to find a solution: that nothing is cheaper is proven already. If it finds none, nothing
follows, and the whole model is searched.
"""

import time
from dataclasses import dataclass, replace
from threading import Event
from typing import Any

import highspy
import numpy as np
import numpy.typing as npt
from highspy import cb

from optimiser.board.model import Model
from optimiser.engine.compact import compact
from optimiser.engine.heard import heard
from optimiser.engine.quiet import Quiet
from optimiser.engine.relaxation import Relaxed, linear_program, whole_bound_of
from optimiser.engine.search import Effort, Found, Watch, minimise

#: Reduced costs below this are rounding.
TINY = 1e-6


@dataclass(frozen=True)
class _Corner:
    """An optimal corner of the relaxation: its value, and the reduced cost of each variable."""

    value: float
    reduced: npt.NDArray[np.float64]


def search_face(
    model: Model, effort: Effort, watch: Watch | None = None
) -> tuple[Found, Relaxed] | None:
    """Return a solution that costs no more than the relaxation's bound, if one is found so.

    Raises
    ------
    KeyboardInterrupt
        On Ctrl-C.
    """
    began = time.perf_counter()
    corner = _corner(linear_program(model), len(model.lower), effort.seconds)
    if corner is None:
        return None
    relaxed = Relaxed(corner.value, whole_bound_of(corner.value), time.perf_counter() - began)
    assert relaxed.bound is not None
    proven = relaxed.bound
    held = compact(_held(model, corner.reduced, proven - corner.value))
    # the bound of what is searched is not one of the whole model
    told = watch and (lambda seconds, best, _: watch(seconds, best, proven))
    found = minimise(held.model, effort, watch=told)
    if found.objective is None or found.objective > proven:
        return None
    took = time.perf_counter() - began
    values = held.expand(found.values)
    return (
        replace(found, status="optimal", values=values, bound=proven, seconds=took),
        relaxed,
    )


def _corner(program: highspy.HighsLp, count: int, seconds: float) -> _Corner | None:
    """Solve by the dual simplex method; presolve takes longer than it saves here."""
    pressed = Event()

    def asked(out: Any, into: Any) -> None:
        into.user_interrupt = pressed.is_set()

    highs = Quiet(solver="simplex", presolve="off", time_limit=seconds)
    highs.passModel(program)
    highs.listen({cb.HighsCallbackType.kCallbackSimplexInterrupt: asked})
    _, stopped = heard(highs.run, pressed.set)
    if stopped:
        raise KeyboardInterrupt
    if highs.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        return None
    reduced = np.array(highs.getSolution().col_dual)[:count]
    return _Corner(float(highs.getInfo().objective_function_value), reduced)


def _held(model: Model, reduced: npt.NDArray[np.float64], spare: float) -> Model:
    """Return the model with all variables held whose move costs more than ``spare``."""
    lower, upper = np.array(model.lower), np.array(model.upper)
    most = max(0.0, spare) + TINY
    return replace(
        model,
        lower=np.where(reduced < -most, upper, lower).tolist(),
        upper=np.where(reduced > most, lower, upper).tolist(),
    )
