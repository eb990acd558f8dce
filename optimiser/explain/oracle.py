"""The solver's answer to one question: whether some demands can be kept together."""

import time
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from ortools.sat.python import cp_model

from optimiser.board.model import Model, Row
from optimiser.engine.interrupts import solve_or_raise
from optimiser.explain.demand import Key, is_argued, row_key
from optimiser.explain.posting import put_elastic, put_row, put_sum, put_var, put_variables

Verdict = Literal["possible", "clash", "unknown"]

_VERDICT: dict[Any, Verdict] = {
    cp_model.OPTIMAL: "possible",
    cp_model.FEASIBLE: "possible",
    cp_model.INFEASIBLE: "clash",
}


@dataclass(frozen=True)
class OracleAnswer:
    """What the solver said.

    Parameters
    ----------
    core
        After a clash: demands that cannot be kept together; never more than were asked about.
    values
        If it is possible: one value a variable of the model.
    """

    verdict: Verdict
    core: tuple[Key, ...] = ()
    values: tuple[int, ...] = ()


@dataclass(frozen=True)
class Call:
    """One question on record, so that an explanation can be played again.

    Parameters
    ----------
    what
        ``core``: with assumptions; ``kept``: demands enforced outright; ``confirm``: the same with
        the second configuration; ``cost``: the cheapest way to give.
    demands
        How many were asked about.
    """

    what: str
    demands: int
    verdict: str
    seconds: float


@dataclass
class Clock:
    """Time that is left, shared by everything one question to us needs, and the record of calls."""

    seconds: float
    calls: list[Call] = field(default_factory=list)
    _began: float = field(default_factory=time.perf_counter)

    @property
    def left(self) -> float:
        """Return the seconds left, not below 0."""
        return max(0.0, self.seconds - self.spent)

    @property
    def spent(self) -> float:
        """Return the seconds since the start."""
        return time.perf_counter() - self._began

    def restart(self) -> None:
        """Count from now on."""
        self._began = time.perf_counter()

    def record(self, what: str, demands: int, verdict: str, seconds: float) -> None:
        """Put one call on record."""
        self.calls.append(Call(what, demands, verdict, round(seconds, 4)))


def _limited(seconds: float, seed: int, effort: float | None) -> cp_model.CpSolver:
    """Return a solver with its limits; probing and symmetry take longer than they save here."""
    solver = cp_model.CpSolver()
    knobs = solver.parameters
    knobs.random_seed = seed
    knobs.cp_model_probing_level = 0
    knobs.symmetry_level = 0
    knobs.max_time_in_seconds = max(0.01, seconds)
    if effort is not None:
        knobs.max_deterministic_time = effort
    return solver


def small_solver(seconds: float, seed: int = 0, effort: float | None = None) -> cp_model.CpSolver:
    """Return a solver for short questions without a cost.

    One worker, as assumptions need; presolve, probing and inprocessing off: each took longer than
    the search itself on every season measured.

    Parameters
    ----------
    seconds
        Wall-clock guard.
    effort
        Limit in the solver's own deterministic seconds.
    """
    solver = _limited(seconds, seed, effort)
    knobs = solver.parameters
    knobs.num_workers = 1
    knobs.cp_model_presolve = False
    knobs.linearization_level = 0
    knobs.use_sat_inprocessing = False
    return solver


def core_solver(seconds: float, seed: int = 0, effort: float | None = None) -> cp_model.CpSolver:
    """Return a solver that closes in on a least cost from below, by cores of what costs nothing."""
    solver = small_solver(seconds, seed, effort)
    solver.parameters.optimize_with_core = True
    return solver


def tight_solver(seconds: float, seed: int = 0, effort: float | None = None) -> cp_model.CpSolver:
    """Return a solver for hard questions: the whole linear relaxation from the start.

    Blocks as arcs make it tight; what takes tens of thousands of conflicts without is then seen
    at once.
    """
    solver = small_solver(seconds, seed, effort)
    solver.parameters.linearization_level = 2
    solver.parameters.add_lp_constraints_lazily = False
    return solver


def light_solver(seconds: float, seed: int = 0, effort: float | None = None) -> cp_model.CpSolver:
    """Return a solver with the whole relaxation and one round of presolve, for least costs.

    Of the cuts only mixed-integer rounding: without it some questions are never settled, with all
    kinds others take five times as long.
    """
    solver = tight_solver(seconds, seed, effort)
    knobs = solver.parameters
    knobs.cp_model_presolve = True
    knobs.max_presolve_iterations = 1
    knobs.add_zero_half_cuts = knobs.add_cg_cuts = knobs.add_clique_cuts = False
    knobs.add_lin_max_cuts = knobs.add_rlt_cuts = False
    return solver


def wide_solver(seconds: float, seed: int = 0, effort: float | None = None) -> cp_model.CpSolver:
    """Return a solver that betters what it has found, mostly by large neighbourhoods.

    Two workers that take turns in a fixed order, so that the answer is the same every time.
    """
    solver = _limited(seconds, seed, effort)
    solver.parameters.num_workers = 2
    solver.parameters.interleave_search = True
    return solver


def second_solver(seconds: float, seed: int) -> cp_model.CpSolver:
    """Return a solver that goes another way than the small one, from another seed.

    All of presolve but probing and symmetry, which take longer than they save, and all cuts.
    """
    solver = _limited(seconds, seed + 4711, None)
    knobs = solver.parameters
    knobs.num_workers = 1
    knobs.linearization_level = 2
    knobs.add_lp_constraints_lazily = False
    return solver


Make = Callable[[float, int, float | None], cp_model.CpSolver]
#: Deterministic seconds after which a question is no easy one.
EASY = 1.0


class Oracle:
    """Answers questions about the demands of one model.

    Parameters
    ----------
    model
        Rows of priced rules are left out: they can always be bought off.
    """

    def __init__(self, model: Model, clock: Clock, seed: int = 0) -> None:
        self.model, self.clock, self.seed = model, clock, seed
        self._cp = cp_model.CpModel()
        self._guards: dict[Key, int] = {}
        self._rows: dict[Key, list[Row]] = {}
        self._loose: dict[tuple[Key, int], int] = {}
        put_variables(self._cp, model)
        for row in model.rows:
            if row.tag is None:
                put_row(self._cp, row)
            elif is_argued(row):
                put_row(self._cp, row, (self._guard(row),))

    def _guard(self, row: Row) -> int:
        key = row_key(row)
        assert key is not None
        if key not in self._guards:
            self._guards[key] = put_var(self._cp, 0, 1)
        self._rows.setdefault(key, []).append(row)
        return self._guards[key]

    @property
    def keys(self) -> list[Key]:
        """Return the demands that can be asked about."""
        return list(self._guards)

    def _loosened(self, key: Key, by: int) -> int:
        """Return the literal that keeps a demand but for ``by`` units."""
        if (key, by) not in self._loose:
            literal = put_var(self._cp, 0, 1)
            slacks = put_elastic(self._cp, self.model, self._rows[key], [literal])
            put_sum(self._cp, dict.fromkeys(slacks, 1), None, by, [literal])
            self._loose[key, by] = literal
        return self._loose[key, by]

    def core(
        self,
        kept: Collection[Key],
        *,
        loosened: Mapping[Key, int] | None = None,
        make: Make = small_solver,
        effort: float | None = None,
    ) -> OracleAnswer:
        """Ask whether ``kept`` can be kept together, and if not, for some that cannot.

        Parameters
        ----------
        loosened
            Demands that are kept but for so many units.
        make
            Makes the solver, from seconds, a seed and ``effort``.
        effort
            Limit in the solver's own deterministic seconds.
        """
        asked = set(kept)
        wanted = {literal: key for key, literal in self._guards.items() if key in asked}
        wanted |= {self._loosened(key, by): key for key, by in (loosened or {}).items()}
        proto = self._cp.proto
        proto.assumptions.clear()
        proto.assumptions.extend(list(wanted))
        began = time.perf_counter()
        solver, verdict = self._asked(make, effort)
        self.clock.record("core", len(wanted), verdict, time.perf_counter() - began)
        if verdict == "clash":
            found = solver.sufficient_assumptions_for_infeasibility()
            # a core has been seen to hold literals nobody assumed; then only the whole is safe
            blamed = set(found)
            if blamed and blamed <= set(wanted):
                return OracleAnswer(verdict, tuple(wanted[lit] for lit in sorted(blamed)))
            return OracleAnswer(verdict, tuple(wanted.values()))
        if verdict == "possible":
            values = list(solver.response_proto.solution)[: len(self.model.lower)]
            return OracleAnswer(verdict, values=tuple(values))
        return OracleAnswer(verdict)

    def _asked(self, make: Make, effort: float | None) -> tuple[cp_model.CpSolver, Verdict]:
        """Return a solver that was asked, and its verdict; hard questions go to the tight one."""
        turns: tuple[tuple[Make, float | None], ...] = ((make, effort),)
        if make is small_solver and effort is None:
            turns = ((make, EASY), (tight_solver, None))
        for each, limit in turns:
            solver = each(self.clock.left, self.seed, limit)
            verdict = _VERDICT.get(solve_or_raise(solver, self._cp), "unknown")
            if verdict != "unknown":
                break
        return solver, verdict


def ask_outright(
    model: Model,
    kept: Collection[Key],
    clock: Clock,
    make: Callable[[float, int], cp_model.CpSolver],
    *,
    what: str = "kept",
    seed: int = 0,
) -> OracleAnswer:
    """Ask whether ``kept`` can be kept together, without assumptions.

    Parameters
    ----------
    make
        Makes the solver, from seconds and a seed.
    what
        Name on the record.
    """
    cp = cp_model.CpModel()
    put_variables(cp, model)
    held = set(kept)
    for row in model.rows:
        if row.tag is None or (is_argued(row) and row_key(row) in held):
            put_row(cp, row)
    solver = make(clock.left, seed)
    began = time.perf_counter()
    verdict = _VERDICT.get(solve_or_raise(solver, cp), "unknown")
    clock.record(what, len(kept), verdict, time.perf_counter() - began)
    if verdict == "possible":
        return OracleAnswer(verdict, values=tuple(solver.response_proto.solution))
    return OracleAnswer(verdict, core=tuple(kept) if verdict == "clash" else ())
