"""The same stage 1 in other ways: stock one-hot CP-SAT, our rows in HiGHS, rules of thumb.

All of them get the rules of ``tests/optimum/week_by_week.py``, so that the costs compare, and one
core, so that the times do.
"""

import sys
import time
from pathlib import Path
from typing import Any

import highspy
from optimiser.objective import Prices, emphasis_value, price_emphasis
from ortools.sat.python import cp_model

from optimiser.domain.season import Season
from optimiser.engine.quiet import Quiet
from optimiser.engine.relaxation import linear_program
from optimiser.engine.search import Effort, minimise
from optimiser.solve import make_board
from tests.rules_of_thumb import greedy

sys.path.insert(0, str(Path(__file__).parents[1] / "optimum"))
from same_rules import rules_of
from week_by_week import Limits, Program, write_emphasis

PRICES = Prices()
LIMITS = Limits(
    shortest=3, longest=6, up=1, down=2, reentry_rung=2, days_off=14, from_rung=3,
    foundation_weeks=3, within=3, keep_bands=4, gap=2, ceiling=200,
)  # fmt: skip


def rivals(season: Season, seconds: float) -> list[dict[str, Any]]:
    """Return one row a way: cost, bound, whether proven, and the seconds it took."""
    ways = (
        ("arcs, our settings", _ours),
        ("arcs in HiGHS", _highs),
        ("one-hot, stock settings", _one_hot),
    )
    rows = []
    for name, way in ways:
        began = time.perf_counter()
        cost, bound = way(season, seconds)
        rows.append(_row(name, cost, bound, time.perf_counter() - began))
    began = time.perf_counter()
    cost = emphasis_value(season, PRICES, greedy(season))
    rows.append(_row("rules of thumb (keeps no rule)", cost, None, time.perf_counter() - began))
    for row in rows:
        row["times ours"] = round(row["seconds"] / max(rows[0]["seconds"], 1e-3), 1)
    return rows


def _row(name: str, cost: float | None, bound: float | None, seconds: float) -> dict[str, Any]:
    gap = None if not cost or bound is None else round(max(0.0, (cost - bound) / cost), 4)
    return {"way": name, "cost": cost, "gap": gap, "seconds": round(seconds, 2)}


def _ours(season: Season, seconds: float) -> tuple[float | None, float | None]:
    board = make_board(season, rules_of(LIMITS))
    price_emphasis(board, PRICES)
    found = minimise(board.model, Effort(deterministic=1e9, seconds=seconds))
    return found.objective, found.bound


def _highs(season: Season, seconds: float) -> tuple[float | None, float | None]:
    board = make_board(season, rules_of(LIMITS))
    price_emphasis(board, PRICES)
    program = linear_program(board.model)
    program.integrality_ = [highspy.HighsVarType.kInteger] * program.num_col_
    solver = Quiet(time_limit=seconds, mip_rel_gap=0.0)
    solver.passModel(program)
    solver.run()
    info = solver.getInfo()
    solved = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
    return (info.objective_function_value if solved else None), info.mip_dual_bound


def _one_hot(season: Season, seconds: float) -> tuple[float | None, float | None]:
    model = _to_cp(write_emphasis(season, LIMITS, PRICES.block, PRICES.tolerance))
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = 1
    code = solver.solve(model)
    found = code in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    return (solver.objective_value if found else None), solver.best_objective_bound


def _to_cp(program: Program) -> cp_model.CpModel:
    model = cp_model.CpModel()
    flags = [model.new_bool_var(f"x{at}") for at in range(len(program.cost))]
    for terms, low, high in program.rows:
        total = cp_model.LinearExpr.weighted_sum(
            [flags[var] for var in terms], [round(factor) for factor in terms.values()]
        )
        least = cp_model.INT_MIN if low == -highspy.kHighsInf else round(low)
        most = cp_model.INT_MAX if high == highspy.kHighsInf else round(high)
        model.add_linear_constraint(total, least, most)
    model.minimize(cp_model.LinearExpr.weighted_sum(flags, [round(cost) for cost in program.cost]))
    return model
