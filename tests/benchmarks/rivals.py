"""The same season, the same model and cost, in other ways.

Stock HiGHS and stock CP-SAT get our whole model without a start and search until 1 % or until time
is up; rules of thumb and the two stages (best bands first, then doses on them) give a plan only.
"""

import time
from dataclasses import replace
from typing import Any

import highspy
from ortools.sat.python import cp_model

from cli.files.scenario_rules import read_rules
from optimiser.board.board import Board
from optimiser.domain.season import Season
from optimiser.engine.cp_sat_model import by_price, emit
from optimiser.engine.highs import SilentHighs
from optimiser.engine.presolve import Presolved, presolved
from optimiser.engine.scaling import THOUSAND, program_of
from optimiser.joint_model.cost import season_cost
from optimiser.joint_model.cost_rows import price_season
from optimiser.joint_model.drive import drive_model, weekly
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import make_board, solve_season
from optimiser.joint_model.start import first_plan
from optimiser.rule import Rule
from tests.demo_seasons import load
from tests.rows import pin_blocks
from tests.rules_of_thumb import greedy

CLOSE = 0.01
Reached = tuple[float | None, float | None]


def rivals(name: str, seconds: float) -> list[dict[str, Any]]:
    """Return one row a way: cost, gap, and the seconds it took; costs in points."""
    loaded = load(name)
    season, rules = loaded.season, read_rules(loaded)
    ways = (
        ("ours", _ours),
        ("HiGHS, no start", _highs),
        ("CP-SAT, no start", _cp_sat),
        ("bands first, then doses", _stages),
        ("rules of thumb (keeps no rule)", _thumb),
    )
    rows = []
    for way, solve in ways:
        began = time.perf_counter()
        cost, bound = solve(season, rules, seconds)
        rows.append(_row(name, way, cost, bound, time.perf_counter() - began))
    for row in rows:
        row["times ours"] = round(row["seconds"] / max(rows[0]["seconds"], 1e-3), 1)
    return rows


def _row(
    name: str, way: str, cost: float | None, bound: float | None, seconds: float
) -> dict[str, Any]:
    gap = None if not cost or bound is None else round(max(0.0, (cost - bound) / cost), 4)
    told = None if cost is None else round(cost / 10_000, 1)
    return {"season": name, "way": way, "cost": told, "gap": gap, "seconds": round(seconds, 1)}


def _ours(season: Season, rules: list[Rule], seconds: float) -> Reached:
    verdict = solve_season(season, rules, Settings(seconds=seconds)).verdict
    return (None, None) if verdict is None else (verdict.cost, verdict.bound)


def _model(season: Season, rules: list[Rule]) -> Presolved:
    board = make_board(season, rules)
    price_season(board, Settings().rates)
    return presolved(board.model)


def _highs(season: Season, rules: list[Rule], seconds: float) -> Reached:
    solver = SilentHighs(time_limit=seconds, mip_rel_gap=CLOSE, threads=2, presolve_rule_off=0)
    solver.passModel(program_of(_model(season, rules).model))
    solver.run()
    info = solver.getInfo()
    found = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
    cost = THOUSAND * info.objective_function_value if found else None
    return cost, THOUSAND * info.mip_dual_bound


def _cp_sat(season: Season, rules: list[Rule], seconds: float) -> Reached:
    small = _model(season, rules).model
    out = emit(small, by_price)
    terms = [out.variables[var] for var in small.cost]
    total = cp_model.LinearExpr.weighted_sum(terms, list(small.cost.values()))
    out.cp.minimize(total + small.offset)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.relative_gap_limit = CLOSE
    solver.parameters.num_workers = 2
    code = solver.solve(out.cp)
    found = code in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    return (solver.objective_value if found else None), solver.best_objective_bound


def _stages(season: Season, rules: list[Rule], seconds: float) -> Reached:
    """Return the cost of the best doses on the best blocks and bands."""
    settings = Settings(seconds=seconds)
    board: Board = make_board(season, rules)
    first = first_plan(board, settings)
    bands = board.read(first.values)
    pinned = make_board(season, rules)
    pin_blocks(pinned, bands)
    price_season(pinned, settings.rates)
    held = pinned.hint(bands)
    found = drive_model(pinned.model, held, weekly(pinned), replace(settings, quick=True))
    plan = pinned.read(found.values)
    return season_cost(season, rules, plan, settings.rates).total, None


def _thumb(season: Season, rules: list[Rule], _: float) -> Reached:
    return season_cost(season, rules, greedy(season), Settings().rates).total, None
