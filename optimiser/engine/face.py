"""Large models whose relaxation is tight: only what costs no more than it is searched.

A variable that leaves the bound at which it has a reduced cost makes a solution dearer than the
relaxation. With these held, a season of two years has a sixth of its variables left, and the search
has only to find a solution: that nothing is cheaper is proven already. If it finds none, nothing
follows, and the whole model is searched.
"""

import time
from dataclasses import replace
from threading import Event

import numpy as np
import numpy.typing as npt

from optimiser.board.model import Model
from optimiser.engine.compact import compact
from optimiser.engine.heard import heard
from optimiser.engine.quiet import Quiet
from optimiser.engine.relaxation import Relaxed, linear_program, solved, whole_bound_of
from optimiser.engine.search import Effort, Found, Watch, minimise

#: Reduced costs below this are rounding.
TINY = 1e-6


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
    highs = _corner(model, effort.seconds)
    if highs is None:
        return None
    value = float(highs.getInfo().objective_function_value)
    reduced = np.array(highs.getSolution().col_dual)[: len(model.lower)]
    bound = whole_bound_of(value)
    relaxed = Relaxed(value, bound, time.perf_counter() - began)
    held = compact(_held(model, reduced, bound - value))
    # the bound of what is searched is not one of the whole model
    told = watch and (lambda seconds, best, _: watch(seconds, best, bound))
    found = minimise(held.model, effort, watch=told)
    if found.objective is None or found.objective > bound:
        return None
    values, took = held.expand(found.values), time.perf_counter() - began
    return replace(found, status="optimal", values=values, bound=bound, seconds=took), relaxed


def _corner(model: Model, seconds: float) -> Quiet | None:
    """Solve the relaxation by dual simplex, whose presolve takes longer than it saves here."""
    program, pressed = linear_program(model), Event()
    highs, stopped = heard(
        lambda: solved(program, seconds, "simplex", pressed.is_set, presolve="off"), pressed.set
    )
    if stopped:
        raise KeyboardInterrupt
    return highs


def _held(model: Model, reduced: npt.NDArray[np.float64], spare: float) -> Model:
    """Return the model with all variables held whose move costs more than ``spare``."""
    lower, upper = np.array(model.lower), np.array(model.upper)
    most = max(0.0, spare) + TINY
    return replace(
        model,
        lower=np.where(reduced < -most, upper, lower).tolist(),
        upper=np.where(reduced > most, lower, upper).tolist(),
    )
