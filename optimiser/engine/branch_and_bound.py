"""Branch and bound by HiGHS: the better bounds and solutions where costs are fine-grained sums."""

import math
import time
from dataclasses import dataclass, field, replace
from threading import Event
from typing import Any

import highspy
from highspy import cb

from optimiser.board.model import Model
from optimiser.engine.cp_sat_search import Found, Status, Watch
from optimiser.engine.highs import Call, SilentHighs
from optimiser.engine.interrupts import interruptible
from optimiser.engine.objective import value_of
from optimiser.engine.row_strengthening import strengthened
from optimiser.engine.scaling import THOUSAND, program_of, values_of, warm_start

#: Part of a bound that tolerances may have made up.
SLIP = 1e-6
#: Part of a cost by which tolerances may have the solver count it otherwise.
OFF = 1e-4
#: Steps that count as one deterministic second.
STEPS = 50
#: Nodes of the tree that count as one step at its root, by workers.
NODES = {1: 30, 2: 60}
#: Variables of a usual season: steps of a smaller model take less time.
USUAL = 1000
#: Times that size from which steps count for more, as they take longer.
LARGE = 1.5


@dataclass(frozen=True)
class SearchLimits:
    """When to stop.

    Parameters
    ----------
    gap, least
        The search ends once the gap is at most ``gap``, after at least so many steps of its own.
        Steps are the same in every run, so runs repeat.
    most
        Steps after which it ends whatever the gap. Both are those of a model of usual size.
    seconds
        Wall-clock guard.
    workers
        Threads of the search, 1 or 2. A search repeats exactly with as many threads.
    seek
        Look for better solutions too. False: they come from elsewhere, all effort is for the bound.
    restarts
        Start the root again where many variables were settled there. False for large models, whose
        root takes long enough as it is; better solutions are then sought around the best one.
    """

    gap: float = 0.004
    least: int = 20
    most: int = 200
    seconds: float = 60.0
    seed: int = 0
    workers: int = 2
    seek: bool = True
    restarts: bool = True


@dataclass
class _Turn:
    """One run: what is asked of it, and how far it is."""

    model: Model
    limits: SearchLimits
    watch: Watch | None
    began: float = field(default_factory=time.perf_counter)
    stop: Event = field(default_factory=Event)
    steps: int = 0
    nodes: int = 0
    told: float = math.inf

    def done(self) -> float:
        """Return the steps so far, as of a model of usual size; nodes count as parts of one."""
        made = self.steps + self.nodes / NODES[self.limits.workers]
        size = len(self.model.lower) / USUAL
        return made * (size if size < 1 else max(1.0, size / LARGE))

    def calls(self) -> dict[cb.HighsCallbackType, Call]:
        """Return what is to be called at each of the places that matter here."""
        return {
            cb.HighsCallbackType.kCallbackMipInterrupt: self.check,
            cb.HighsCallbackType.kCallbackMipUserSolution: self.asked,
        }

    def asked(self, out: Any, _: Any) -> None:
        """Count a step at the root, where the solver asks for solutions from elsewhere."""
        if not out.mip_node_count:
            self.steps += 1

    def check(self, out: Any, into: Any) -> None:
        """Stop the run when it is time, tell of better solutions."""
        self.nodes = max(self.nodes, out.mip_node_count)
        limits, done = self.limits, self.done()
        # else the solver ends by its own gap: stopped here, it loses a solution found just now
        close = limits.seek and out.mip_gap < limits.gap and done >= limits.least
        if close or done >= limits.most or self.stop.is_set():
            into.user_interrupt = True
        if self.watch is not None and out.mip_primal_bound < self.told:
            self.told = out.mip_primal_bound
            best, bound = THOUSAND * self.told, THOUSAND * out.mip_dual_bound
            self.watch(time.perf_counter() - self.began, best, bound)


def branch_and_bound(
    model: Model,
    limits: SearchLimits,
    *,
    hint: dict[int, int] | None = None,
    watch: Watch | None = None,
) -> Found:
    """Minimise the model's cost by linear relaxations, cuts and branching.

    Variables of ``model.fine`` are taken as continuous. On Ctrl-C, what there is is returned.

    Parameters
    ----------
    hint
        A value for some variables.
    """
    turn, tight, hint = _Turn(model, limits, watch), strengthened(model), hint or {}
    highs = _set_up(tight, limits)
    pressed = _run(highs, turn, hint)
    left = limits.seconds - (time.perf_counter() - turn.began)
    if not pressed and left > 0 and not _agrees(highs, model):
        highs = _set_up(tight, replace(limits, seconds=left), presolve="off")
        pressed = _run(highs, turn, hint)
    return _found(highs, model, turn, pressed)


def _run(highs: SilentHighs, turn: _Turn, hint: dict[int, int]) -> bool:
    """Search; tell whether a key was pressed."""
    if hint:
        warm_start(highs, turn.model, hint)
    highs.listen(turn.calls())
    return interruptible(highs.run, turn.stop.set)[1]


def _agrees(highs: SilentHighs, model: Model) -> bool:
    """Tell whether a solution costs what the solver says; if not, its presolve lost something."""
    info, found = highs.getInfo(), highs.getSolution()
    if not found.value_valid:
        return True
    cost = value_of(model, values_of(found.col_value, model))
    return abs(cost - THOUSAND * info.objective_function_value) <= 1 + OFF * abs(cost)


def _set_up(model: Model, limits: SearchLimits, **more: str) -> SilentHighs:
    # measured: doses are best told apart by trying, and good ones found by small searches
    seek, around = limits.seek, not limits.restarts
    highs = SilentHighs(
        time_limit=limits.seconds,
        random_seed=limits.seed,
        threads=limits.workers,
        mip_rel_gap=0.0 if seek else limits.gap,
        mip_pscost_minreliable=1,
        # searches around the best solution: without them one whole season stayed at 3 %
        mip_heuristic_effort=0.1 if seek or around else 0.02,
        mip_heuristic_run_rins=seek or around,
        mip_heuristic_run_rens=seek,
        mip_heuristic_run_root_reduced_cost=limits.restarts,
        mip_heuristic_run_feasibility_jump=limits.restarts,
        mip_allow_restart=limits.restarts,
        mip_allow_cut_separation_at_nodes=False,
        **more,
    )
    highs.passModel(program_of(model))
    return highs


_CLOSED: dict[highspy.HighsModelStatus, Status] = {
    highspy.HighsModelStatus.kOptimal: "optimal",
    highspy.HighsModelStatus.kInfeasible: "infeasible",
}


def _bound(highs: SilentHighs, model: Model) -> float:
    """Return the bound that was reached; of a model all of whose variables are continuous its end.

    Such a one is solved as a linear model, and of a bound of a tree nothing is told.
    """
    info = highs.getInfo()
    if len(model.fine | model.implied) < len(model.lower):
        return float(info.mip_dual_bound)
    optimal = highs.getModelStatus() == highspy.HighsModelStatus.kOptimal
    return float(info.objective_function_value) if optimal else -math.inf


def _found(highs: SilentHighs, model: Model, turn: _Turn, pressed: bool) -> Found:
    info = highs.getInfo()
    has_plan = info.primal_solution_status == int(highspy.SolutionStatus.kSolutionStatusFeasible)
    status: Status = _CLOSED.get(highs.getModelStatus(), "feasible" if has_plan else "unknown")
    bound = THOUSAND * _bound(highs, model)
    values = values_of(highs.getSolution().col_value, model) if has_plan else []
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
        deterministic=turn.done() / STEPS,
        hit_wall=seconds >= turn.limits.seconds,
        cut_short=pressed and status != "optimal",
    )
