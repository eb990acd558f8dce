"""Branch and bound by HiGHS: the better bounds and solutions where costs are fine-grained sums."""

import math
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from threading import Event
from typing import Any

import highspy
import numpy as np
from highspy import cb

from optimiser.board.model import Model, Row
from optimiser.engine.heard import heard
from optimiser.engine.quiet import Quiet
from optimiser.engine.relaxation import linear_program
from optimiser.engine.search import Found, Status, Watch
from optimiser.engine.value import value_of

#: Part of a bound that tolerances may have made up.
SLIP = 1e-6
#: What HiGHS counts costs in.
THOUSAND = 1000.0
#: Checks that count as one deterministic second.
CHECKS = 100
#: Variables of a usual season: a smaller model is checked more often, as each check costs less.
USUAL = 1000


@dataclass(frozen=True)
class Limits:
    """When to stop.

    Parameters
    ----------
    gap, checks
        The search ends once the gap is at most ``gap``, after as many checks of its own as
        ``checks`` says. Checks come at the same places of every run, so runs repeat.
    early
        Gap of the first solution that is told of.
    most
        Checks after which it ends whatever the gap. Both are those of a model of usual size.
    seconds
        Wall-clock guard.
    restart
        Begin again from the root when much has been fixed: a better bound for half as much time.
    """

    gap: float = 0.004
    checks: int = 60
    most: int = 200
    seconds: float = 60.0
    seed: int = 0
    early: float = 0.015
    restart: bool = True


@dataclass
class _Turn:
    """One run: what is asked of it, and how far it is."""

    limits: Limits
    watch: Watch | None
    early: Callable[[Sequence[float]], None] | None
    size: int
    began: float = field(default_factory=time.perf_counter)
    stop: Event = field(default_factory=Event)
    checks: int = 0
    told: float = math.inf
    solution: Sequence[float] = ()

    def done(self) -> float:
        """Return the checks so far, as of a model of usual size."""
        return self.checks * min(1.0, self.size / USUAL)

    def improved(self, kind: Any, message: str, out: Any, into: Any, user: Any) -> None:
        """Keep a better solution, until the first good one has been told of."""
        if self.early is not None:
            self.solution = list(out.mip_solution)

    def heard(self, kind: Any, message: str, out: Any, into: Any, user: Any) -> None:
        """Take a call of the solver's."""
        better = cb.HighsCallbackType.kCallbackMipImprovingSolution
        (self.improved if kind == better else self.check)(kind, message, out, into, user)

    def check(self, kind: Any, message: str, out: Any, into: Any, user: Any) -> None:
        """Stop the run when it is time, tell of better solutions."""
        self.checks += 1
        limits, done = self.limits, self.done()
        close = out.mip_gap <= limits.gap and done >= limits.checks
        if close or done >= limits.most or self.stop.is_set():
            into.user_interrupt = True
        if self.early is not None and len(self.solution) and out.mip_gap <= limits.early:
            self.early(self.solution)
            self.early = None
        if self.watch is not None and out.mip_primal_bound < self.told:
            self.told = out.mip_primal_bound
            best, bound = THOUSAND * self.told, THOUSAND * out.mip_dual_bound
            self.watch(time.perf_counter() - self.began, best, bound)


def branch(
    model: Model,
    limits: Limits,
    *,
    hint: dict[int, int] | None = None,
    watch: Watch | None = None,
    early: Callable[[list[int]], None] | None = None,
) -> Found:
    """Minimise the model's cost by linear relaxations, cuts and branching.

    Variables of ``model.fine`` are taken as continuous. On Ctrl-C, what there is is returned.

    Parameters
    ----------
    hint
        A value for some variables.
    early
        Called once, with the first solution that is not far from the bound.
    """
    told = None if early is None else lambda found: early(_values(found, model))
    highs, turn = _set_up(model, limits), _Turn(limits, watch, told, len(model.lower))
    if hint:
        scaled = [value / (THOUSAND if var in model.fine else 1.0) for var, value in hint.items()]
        highs.setSolution(len(hint), np.array(list(hint), dtype=np.int32), np.array(scaled))
    highs.setCallback(turn.heard, None)
    highs.startCallback(cb.HighsCallbackType.kCallbackMipInterrupt)
    if early is not None:
        highs.startCallback(cb.HighsCallbackType.kCallbackMipImprovingSolution)
    _, pressed = heard(highs.run, turn.stop.set)
    return _found(highs, model, turn, pressed)


def _set_up(model: Model, limits: Limits) -> Quiet:
    highs = Quiet()
    highs.setOptionValue("time_limit", limits.seconds)
    highs.setOptionValue("random_seed", limits.seed)
    highs.setOptionValue("mip_rel_gap", 0.0)
    highs.setOptionValue("mip_allow_restart", limits.restart)
    program = _in_thousands(linear_program(model), model.fine)
    whole, broken = highspy.HighsVarType.kInteger, highspy.HighsVarType.kContinuous
    kinds = [broken if var in model.fine else whole for var in range(len(model.lower))]
    # columns after the model's own are slacks of priced rows
    program.integrality_ = kinds + [whole] * (program.num_col_ - len(kinds))
    highs.passModel(program)
    return highs


def _in_thousands(program: highspy.HighsLp, fine: set[int]) -> highspy.HighsLp:
    """Count costs and fine variables in thousands, so that numbers are of one size."""
    index, value = np.array(program.a_matrix_.index_), np.array(program.a_matrix_.value_)
    many = np.ones(program.num_col_)
    many[sorted(fine)] = THOUSAND
    program.a_matrix_.value_ = value * many[index]
    program.col_cost_ = np.array(program.col_cost_) * many / THOUSAND
    program.col_lower_ = np.array(program.col_lower_) / many
    program.col_upper_ = np.array(program.col_upper_) / many
    program.offset_ = program.offset_ / THOUSAND
    return program


_CLOSED: dict[highspy.HighsModelStatus, Status] = {
    highspy.HighsModelStatus.kOptimal: "optimal",
    highspy.HighsModelStatus.kInfeasible: "infeasible",
}


def _found(highs: Quiet, model: Model, turn: _Turn, pressed: bool) -> Found:
    info = highs.getInfo()
    has_plan = info.primal_solution_status == int(highspy.SolutionStatus.kSolutionStatusFeasible)
    status: Status = _CLOSED.get(highs.getModelStatus(), "feasible" if has_plan else "unknown")
    bound = THOUSAND * info.mip_dual_bound
    values = _values(highs.getSolution().col_value, model) if has_plan else []
    objective = value_of(model, values) if values else None
    bound = bound - SLIP * max(1.0, abs(bound)) if math.isfinite(bound) else 0.0
    if status == "optimal" and objective is not None:
        # a solver that works in floats proves to a millionth; more is not to be had from it
        proven = objective - bound <= 1 + 2 * SLIP * abs(bound)
        status, bound = ("optimal", objective) if proven else ("feasible", bound)
    seconds = time.perf_counter() - turn.began
    return Found(
        status=status,
        values=values,
        objective=objective,
        bound=bound,
        seconds=seconds,
        deterministic=turn.done() / CHECKS,
        hit_wall=seconds >= turn.limits.seconds,
        cut_short=pressed and status != "optimal",
    )


def _values(found: Sequence[float], model: Model) -> list[int]:
    """Return the solution in whole numbers, fine variables worked out from the others."""
    values = [round(value) for value in found[: len(model.lower)]]
    for var in model.fine:
        values[var] = model.lower[var]
    for row in model.rows:
        for var in model.fine.intersection(row.terms):
            values[var] = max(values[var], _needed(row, var, values))
    return values


def _needed(row: Row, var: int, values: list[int]) -> int:
    """Return the least whole number of ``var`` with which a row holds, the others as they are."""
    rest = sum(factor * values[other] for other, factor in row.terms.items() if other != var)
    factor = row.terms[var]
    if factor > 0 and row.low is not None:
        return -((rest - row.low) // factor)
    if factor < 0 and row.high is not None:
        return -((row.high - rest) // -factor)
    return values[var]
