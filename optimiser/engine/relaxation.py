"""A certified bound from the linear relaxation, by HiGHS interior point without crossover."""

import math
import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import highspy
import numpy as np
from highspy import cb

from optimiser.board.model import Model, Row
from optimiser.engine.highs import SilentHighs


@dataclass(frozen=True)
class Relaxed:
    """The relaxation's value, the whole-number bound that follows, and the time it took."""

    value: float | None
    bound: int | None
    seconds: float


#: Told at each iteration whether the bound is still wanted.
Halt = Callable[[], bool]
_ASKED = (
    cb.HighsCallbackType.kCallbackIpmInterrupt,
    cb.HighsCallbackType.kCallbackSimplexInterrupt,
)


def relaxation(
    model: Model,
    seconds: float = 30.0,
    *,
    method: str = "ipm",
    halt: Halt = lambda: False,
) -> Relaxed:
    """Return a lower bound of the model's cost.

    All costs are whole numbers, so the bound may be rounded up once the solver's tolerance is
    taken off. The dual value is used: a point inside the dual is a bound whatever the primal does.

    Parameters
    ----------
    halt
        Asked again and again; once it says so there is no bound.
    """
    began = time.perf_counter()
    program = linear_program(model)
    value = _solve(program, seconds, method, halt)
    if value is None and not halt():
        left = seconds - (time.perf_counter() - began)
        value = _solve(program, left, "simplex", halt) if left > 0 else None
    took = time.perf_counter() - began
    if value is None:
        return Relaxed(None, None, took)
    return Relaxed(value, whole_bound_of(value), took)


def whole_bound_of(value: float) -> int:
    """Return the bound on whole costs that follows from a relaxation's value."""
    return math.ceil(value - 1e-6 * max(1.0, abs(value)))


def solved(
    program: highspy.HighsLp, seconds: float, method: str, halt: Halt, *, presolve: str = "choose"
) -> SilentHighs | None:
    """Return the solver with an optimum, or None if the method did not get there."""

    def asked(out: Any, into: Any) -> None:
        into.user_interrupt = halt()

    highs = SilentHighs(solver=method, presolve=presolve, run_crossover="off", time_limit=seconds)
    highs.passModel(program)
    highs.listen(dict.fromkeys(_ASKED, asked))
    highs.run()
    optimal = highs.getModelStatus() == highspy.HighsModelStatus.kOptimal
    return highs if optimal else None


def _solve(program: highspy.HighsLp, seconds: float, method: str, halt: Halt) -> float | None:
    """Return the dual objective, or None if the method did not get there."""
    highs = solved(program, seconds, method, halt)
    return float(highs.getInfo().objective_function_value) if highs else None


def linear_program(model: Model) -> highspy.HighsLp:
    """Return the linear program, its first columns the model's variables in order.

    Priced rows get a slack, conditions a big enough constant.
    """
    lower, upper = list(map(float, model.lower)), list(map(float, model.upper))
    cost = np.zeros(len(lower))
    for var, factor in model.cost.items():
        cost[var] = factor
    costs = [float(each) for each in cost]
    starts, index, value, lows, highs = [0], [], [], [], []
    for row in model.rows:
        for terms, low, high in _plain(model, row, lower, upper, costs):
            index += list(terms)
            value += list(terms.values())
            starts.append(len(index))
            lows.append(low)
            highs.append(high)
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = len(lower), len(lows)
    lp.col_cost_, lp.col_lower_, lp.col_upper_ = np.array(costs), np.array(lower), np.array(upper)
    lp.row_lower_, lp.row_upper_ = np.array(lows, dtype=float), np.array(highs, dtype=float)
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_ = np.array(starts)
    lp.a_matrix_.index_ = np.array(index)
    lp.a_matrix_.value_ = np.array(value, dtype=float)
    lp.offset_ = model.offset
    return lp


def _plain(
    model: Model, row: Row, lower: list[float], upper: list[float], costs: list[float]
) -> list[tuple[dict[int, int], float, float]]:
    """Return a row without its condition and price."""
    terms = dict(row.terms)
    if row.tag is not None and row.tag.price is not None:
        lower.append(0.0)
        upper.append(math.inf)
        costs.append(float(model.charge * row.tag.price))
        terms[len(lower) - 1] = -row.unit if row.high is not None else row.unit
    if row.when is None:
        low = -math.inf if row.low is None else row.low
        return [(terms, low, math.inf if row.high is None else row.high)]
    return _switched(model, row, terms)


def _switched(
    model: Model, row: Row, terms: dict[int, int]
) -> list[tuple[dict[int, int], float, float]]:
    assert row.when is not None
    ends = [
        (factor * model.lower[var], factor * model.upper[var]) for var, factor in row.terms.items()
    ]
    out: list[tuple[dict[int, int], float, float]] = []
    if row.high is not None:
        spare = sum(map(max, ends)) - row.high
        if spare > 0:
            out.append(({**terms, row.when: spare}, -math.inf, row.high + spare))
    if row.low is not None:
        spare = row.low - sum(map(min, ends))
        if spare > 0:
            out.append(({**terms, row.when: -spare}, row.low - spare, math.inf))
    return out
