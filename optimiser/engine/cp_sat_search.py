"""One CP-SAT solve with the settings that were measured to prove these models."""

import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from ortools.sat.python import cp_model

from optimiser.board.model import Model
from optimiser.engine.cp_sat_model import Emitted, by_price, emit
from optimiser.engine.interrupts import solve

Status = Literal["optimal", "feasible", "infeasible", "unknown"]

_STATUS: dict[cp_model.CpSolverStatus, Status] = {
    cp_model.OPTIMAL: "optimal",
    cp_model.FEASIBLE: "feasible",
    cp_model.INFEASIBLE: "infeasible",
}


@dataclass(frozen=True)
class Effort:
    """How hard to try.

    Parameters
    ----------
    deterministic
        Limit in CP-SAT's deterministic seconds; the one that should bind, so that runs repeat.
    seconds
        Wall-clock guard.
    workers
        One worker repeats exactly; two race.
    presolve
        ``light`` leaves out what takes long and rarely pays in a short search.
    """

    deterministic: float = 12.0
    seconds: float = 60.0
    workers: int = 1
    seed: int = 0
    presolve: Literal["full", "light", "none"] = "full"


@dataclass(frozen=True)
class Found:
    """What a solve gave: values are empty if there is no solution.

    Parameters
    ----------
    cut_short
        True if a key press ended it.
    confirmed
        Whether another solver came to the same end; None if it was not asked or did not end.
    """

    status: Status
    values: list[int]
    objective: int | None
    bound: float
    seconds: float
    deterministic: float
    hit_wall: bool = False
    cut_short: bool = False
    confirmed: bool | None = None

    @property
    def closed(self) -> bool:
        """Tell whether there is nothing more to find."""
        return self.status in ("optimal", "infeasible")

    def near(self, gap: float) -> bool:
        """Tell whether the solution is within ``gap`` of the bound."""
        return self.objective is not None and self.objective - self.bound <= gap * self.objective


#: Told of seconds, cost and bound of a better solution.
Watch = Callable[[float, float, float], None]


def solver_for(effort: Effort) -> cp_model.CpSolver:
    """Return a solver set up for these models."""
    solver = cp_model.CpSolver()
    knobs = solver.parameters
    knobs.num_workers = effort.workers
    knobs.random_seed = effort.seed
    knobs.linearization_level = 2
    knobs.add_lp_constraints_lazily = False
    knobs.max_deterministic_time = effort.deterministic
    knobs.max_time_in_seconds = effort.seconds
    if effort.presolve != "full":
        knobs.cp_model_probing_level = 0
        knobs.symmetry_level = 0
        knobs.max_presolve_iterations = 1
        knobs.cp_model_presolve = effort.presolve == "light"
    if effort.workers > 1:
        knobs.subsolvers.extend(["max_lp", "default_lp"])
    return solver


def minimise(
    model: Model,
    effort: Effort,
    *,
    hint: dict[int, int] | None = None,
) -> Found:
    """Minimise the model's cost plus the price of what gives way.

    Parameters
    ----------
    hint
        A value for some variables.

    Raises
    ------
    KeyboardInterrupt
        On Ctrl-C.
    """
    out = emit(model, by_price)
    for var, value in (hint or {}).items():
        out.cp.add_hint(out.variables[var], value)
    _set_objective(out, model)
    found = _run(out, effort)
    if found.cut_short:
        raise KeyboardInterrupt
    return found


def _set_objective(out: Emitted, model: Model) -> None:
    terms = [out.variables[var] for var in model.cost]
    factors = list(model.cost.values())
    for tag, slacks in out.slacks.items():
        terms += slacks
        factors += [model.charge * int(tag.price or 1)] * len(slacks)
    out.cp.minimize(cp_model.LinearExpr.weighted_sum(terms, factors) + model.offset)


def _run(out: Emitted, effort: Effort) -> Found:
    solver = solver_for(effort)
    began = time.perf_counter()
    code, pressed = solve(solver, out.cp)
    seconds = time.perf_counter() - began
    status = _STATUS.get(code, "unknown")
    has_plan = status in ("optimal", "feasible")
    values = [int(solver.value(var)) for var in out.variables] if has_plan else []
    return Found(
        status=status,
        values=values,
        objective=round(solver.objective_value) if has_plan else None,
        bound=solver.best_objective_bound,
        seconds=seconds,
        deterministic=solver.response_proto.deterministic_time,
        hit_wall=seconds >= effort.seconds,
        cut_short=pressed and status != "optimal",
    )
