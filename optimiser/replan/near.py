"""The best plan that stays near another one: where plans are equally good, the old choice wins."""

import time
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from optimiser.board.board import Board
from optimiser.board.model import Row
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.engine.compact import Compact, compact
from optimiser.engine.search import Found, minimise
from optimiser.engine.windows import improve
from optimiser.objective import (
    emphasis_value,
    price_emphasis,
    price_readiness,
    readiness_value,
)
from optimiser.replan.cells import cell, change_flags, session_moves
from optimiser.replan.freeze import Frozen, freeze
from optimiser.rule import Rule
from optimiser.solve import SMALL_GAP, Settings, Stage, StageStatus

#: What one changed cell must bring, in tenths of a readiness point of a plain week.
PER_CELL = 2
PER_SESSION = 1


@dataclass(frozen=True)
class Near:
    """A plan near another one.

    Parameters
    ----------
    forced
        Breaches that history forces: no choice that is left avoids them.
    """

    status: Literal["planned", "clash", "out_of_time"]
    plan: Plan | None
    stages: tuple[Stage, ...]
    seconds: float
    forced: tuple[Breach, ...] = ()


@dataclass(frozen=True)
class History:
    """What is decided: the first ``weeks`` weeks of ``past``."""

    past: Plan
    weeks: int


def solve_near(
    season: Season,
    rules: Sequence[Rule],
    old: Plan,
    settings: Settings,
    history: History | None = None,
) -> Near:
    """Return the best plan, and among equally good bands those of ``old``.

    Parameters
    ----------
    history
        Weeks that stand; left out, every week is open.
    """
    began = time.perf_counter()
    history = history or History(old, 0)
    frozen = freeze(season, rules, history.past, history.weeks)
    found = bands_near(frozen, old, settings)
    if found.status == "infeasible" and history.weeks:
        frozen = freeze(season, rules, history.past, history.weeks, give_way=True)
        found = bands_near(frozen, old, settings)
    if not found.values:
        none: Literal["clash", "out_of_time"] = (
            "clash" if found.status == "infeasible" else "out_of_time"
        )
        return Near(none, None, (), time.perf_counter() - began)
    judge = Judge(season, rules, settings, frozen)
    plan = frozen.board.read(found.values)
    first = judge.bands(plan, found)
    plan, second = doses_near(frozen, plan, old, judge)
    took = time.perf_counter() - began
    return Near("planned", plan, (first, second), took, judge.breaches(plan))


def bands_near(frozen: Frozen, old: Plan, settings: Settings) -> Found:
    """Search stage 1; ties are broken by how many weeks stand on another band than in ``old``."""
    board = frozen.board
    scale = tie_scale(board)
    price_emphasis(board, settings.prices)
    cost = {var: scale * value for var, value in board.model.cost.items()}
    for (quality, arc, rung, _, _), var in board.steps.items():
        moved = sum(
            cell(old, week, quality)[0] not in (None, rung)
            for week in arc.weeks
            if week >= frozen.weeks
        )
        cost[var] = cost.get(var, 0) + moved
    board.model.cost = cost
    rows, board.model.rows = board.model.rows, [_scaled(row, scale) for row in board.model.rows]
    found = minimise(board.model, settings.effort(settings.emphasis_effort))
    board.model.rows = rows
    return found


def _scaled(row: Row, scale: int) -> Row:
    """Return a row whose price, if it has one, is ``scale`` times as high."""
    if row.tag is None or row.tag.price is None:
        return row
    return replace(row, tag=replace(row.tag, price=scale * row.tag.price))


def tie_scale(board: Board) -> int:
    """Return a factor by which one unit of emphasis outweighs every tie."""
    return len(board.season.weeks) * len(board.season.qualities) + 1


def doses_near(
    frozen: Frozen, plan: Plan, old: Plan, judge: "Judge"
) -> tuple[Plan, Stage]:
    """Choose the doses for the bands of ``plan``; each change from ``old`` has its small price."""
    board, settings = frozen.board, judge.settings
    board.pin_blocks(plan)
    price_readiness(board, settings.prices, plan)
    weeks = range(frozen.weeks, len(board.season.weeks))
    flags = change_flags(board, old, weeks)
    moves = session_moves(board, old, weeks)
    board.model.cost |= dict.fromkeys(flags.values(), PER_CELL)
    board.model.cost |= dict.fromkeys(moves, PER_SESSION)
    small = compact(board.model)
    hint = _hint(board, plan, old)
    effort = settings.effort(settings.dose_effort)
    found = minimise(small.model, effort, hint=small.shrink(hint) if hint else None)
    values = polish(board, small, found, settings) if found.values else []
    better = board.read(small.expand(values)) if values else plan
    return better, judge.doses(better, old, found)


def polish(board: Board, small: Compact, found: Found, settings: Settings) -> list[int]:
    """Improve a solution a few weeks at a time."""
    if found.status == "optimal":
        return found.values
    place = {old: new for new, old in enumerate(small.kept)}
    groups = [
        [place[var] for var in board.week_choices(week) if var in place]
        for week in board.open_weeks()
    ]
    effort = settings.effort(settings.polish_effort)
    values, _ = improve(small.model, found.values, [group for group in groups if group], effort)
    return values


def _hint(board: Board, plan: Plan, old: Plan) -> dict[int, int] | None:
    """Return the choices of ``old`` where its bands were kept.

    Under other bands its doses mislead the search.
    """
    same = old.rungs == plan.rungs and old.starts == plan.starts
    return board.hint(old) if same else None


class Judge:
    """Works out objectives from plans alone, and says what is proven."""

    def __init__(
        self, season: Season, rules: Sequence[Rule], settings: Settings, frozen: Frozen
    ) -> None:
        self.season, self.rules, self.settings = season, rules, settings
        self.frozen = frozen
        self.scale = tie_scale(frozen.board)
        self._lost = {(tag.rule, tag.week, tag.quality) for tag in frozen.lost}

    def breaches(self, plan: Plan) -> tuple[Breach, ...]:
        """Return breaches of rules that must hold, from the first open week on."""
        return tuple(
            breach
            for rule in self.rules
            if rule.price is None
            for breach in rule.audit(plan, self.season)
            if breach.week is None or breach.week >= self.frozen.weeks
        )

    def clean(self, plan: Plan) -> bool:
        """Tell whether a plan breaks no rule but where history has broken it."""
        return all(
            (breach.rule, breach.week, breach.quality) in self._lost
            for breach in self.breaches(plan)
        )

    def paid(self, plan: Plan) -> int:
        """Return what a plan pays for priced rules."""
        return sum(
            rule.price * breach.excess
            for rule in self.rules
            if rule.price is not None
            for breach in rule.audit(plan, self.season)
        )

    def bands(self, plan: Plan, found: Found) -> Stage:
        """Return the record of stage 1, in units of emphasis without the tie-break."""
        objective = emphasis_value(self.season, self.settings.prices, plan) + self.paid(plan)
        # the tie-break adds less than one unit
        low = objective if found.status == "optimal" else max(0.0, found.bound // self.scale)
        return self._stage("emphasis", plan, objective, low, found)

    def doses(self, plan: Plan, old: Plan, found: Found) -> Stage:
        """Return the record of stage 2, the small prices of changes included."""
        value = readiness_value(self.season, self.settings.prices, plan) + self.paid(plan)
        objective = value + self._moved(plan, old)
        return self._stage("doses", plan, objective, max(0.0, found.bound), found)

    def _moved(self, plan: Plan, old: Plan) -> int:
        total = 0
        for week in self.frozen.board.open_weeks():
            if week < self.frozen.weeks:
                continue
            cells = range(len(old.rungs))
            changed = sum(cell(old, week, q) != cell(plan, week, q) for q in cells)
            moved = abs(plan.field[week] - old.field[week]) + abs(plan.gym[week] - old.gym[week])
            total += PER_CELL * changed + PER_SESSION * moved
        return total

    def _stage(
        self, name: str, plan: Plan, objective: int, bound: float, found: Found
    ) -> Stage:
        gap = max(0.0, (objective - bound) / max(1, objective))
        clean = self.clean(plan)
        closed = found.status == "optimal" or objective <= bound
        if clean and closed and bound <= objective:
            status: StageStatus = "proven"
        else:
            status = "within_gap" if clean and gap <= SMALL_GAP else "stopped"
        return Stage(name, status, objective, bound, gap, found.seconds, found.deterministic)
