"""The best plan that stays near another one: where plans are equally good, the old choice wins."""

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from optimiser.board.board import Board
from optimiser.board.model import Model, Row
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.engine.branch import branch
from optimiser.engine.compact import compact
from optimiser.engine.search import Effort, Found, minimise
from optimiser.engine.twice import short_first
from optimiser.objective import (
    TENTH,
    emphasis_value,
    price_emphasis,
    price_readiness,
    readiness_value,
)
from optimiser.replan.cells import cell, change_flags, changed_cells, session_moves
from optimiser.replan.freeze import Frozen, freeze
from optimiser.rule import Rule
from optimiser.solve import SMALL_GAP, Settings, Stage, StageStatus

#: What one changed cell must bring, in parts of a readiness point of a plain week.
PER_CELL = 2 * TENTH
PER_SESSION = TENTH
#: Deterministic limit of a second try, if the first finds no doses.
LAST_RESORT = 6.0
#: Limits of the first search for bands: deterministic, and in seconds.
BARE, BARE_SECONDS = 8.0, 12.0


@dataclass(frozen=True)
class Near:
    """A plan near another one.

    Parameters
    ----------
    forced
        Breaches from the first open week on, which history forces.
    gave_way
        True if rules that bind history to what follows had to give way.
    """

    status: Literal["planned", "clash", "out_of_time"]
    plan: Plan | None
    stages: tuple[Stage, ...]
    seconds: float
    forced: tuple[Breach, ...] = ()
    gave_way: bool = False


@dataclass(frozen=True)
class Decided:
    """What is decided: the first ``weeks`` weeks of ``past``."""

    past: Plan
    weeks: int


def solve_near(
    season: Season,
    rules: Sequence[Rule],
    old: Plan,
    settings: Settings,
    decided: Decided | None = None,
    *,
    also: Callable[[Board], None] | None = None,
) -> Near:
    """Return the best plan, and among equally good bands those of ``old``.

    Parameters
    ----------
    decided
        Weeks that stand; left out, every week is open.
    also
        Asks more of the board before it is searched.
    """
    began = time.perf_counter()
    decided = decided or Decided(old, 0)
    frozen = freeze(season, rules, decided.past, decided.weeks)
    if also is not None:
        also(frozen.board)
    found = bands_near(frozen, old, settings)
    gave_way = found.status == "infeasible" and decided.weeks > 0
    if gave_way:
        frozen = freeze(season, rules, decided.past, decided.weeks, give_way=True)
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
    return Near("planned", plan, (first, second), took, judge.breaches(plan), gave_way)


def bands_near(frozen: Frozen, old: Plan, settings: Settings) -> Found:
    """Search stage 1; ties are broken by how many weeks stand on other bands than in ``old``."""
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
    starts = set(old.starts)
    for arc, var in board.arcs.items():
        cost[var] = cost.get(var, 0) + (arc.start >= frozen.weeks and arc.start not in starts)
    board.model.cost = cost
    rows, board.model.rows = board.model.rows, [_scaled(row, scale) for row in board.model.rows]
    found = _searched(board.model, settings)
    board.model.rows = rows
    return found


def _searched(model: Model, settings: Settings) -> Found:
    """Search without presolve first, which proves most seasons at once, then as usual."""
    small = compact(model, tighten=False)
    bare = replace(settings.effort(BARE), seconds=BARE_SECONDS, presolve="none")
    found = short_first(small.model, bare, settings.effort(settings.emphasis_effort))
    if found.cut_short:
        raise KeyboardInterrupt
    return replace(found, values=small.expand(found.values)) if found.values else found


def _scaled(row: Row, scale: int) -> Row:
    """Return a row whose price, if it has one, is ``scale`` times as high."""
    if row.tag is None or row.tag.price is None:
        return row
    return replace(row, tag=replace(row.tag, price=scale * row.tag.price))


def tie_scale(board: Board) -> int:
    """Return a factor by which one unit of emphasis outweighs every tie."""
    return len(board.season.weeks) * (len(board.season.qualities) + 1) + 1


def doses_near(frozen: Frozen, plan: Plan, old: Plan, judge: "Judge") -> tuple[Plan, Stage]:
    """Choose the doses for the bands of ``plan``.

    A change from ``old`` must bring a little, so that equally good choices stay as they were.
    """
    board, settings = frozen.board, judge.settings
    board.pin_blocks(plan)
    price_readiness(board, settings.prices, plan)
    board.model.cost |= change_costs(board, old, frozen.weeks)
    small = compact(board.model, tighten=False)
    kept = old.rungs == plan.rungs and old.starts == plan.starts and judge.clean(old)
    # doses that break a rule, or were made for other bands, mislead the search as a hint
    hint = small.shrink(board.hint(old)) if kept else None
    found = branch(small.model, settings.limits(), hint=hint)
    if not found.values:
        found = minimise(small.model, settings.effort(LAST_RESORT), hint=hint)
    better = board.read(small.expand(found.values)) if found.values else plan
    if kept:
        better = min(old, better, key=lambda each: judge.worth(each, old))
    return better, judge.doses(better, old, found)


def short(settings: Settings, deterministic: float) -> Effort:
    """Return the effort of a short search."""
    return replace(settings.effort(deterministic), presolve="light")


def change_costs(board: Board, old: Plan, first: int) -> dict[int, int]:
    """Return the variables that tell changes from ``old``, and what each costs."""
    weeks = range(first, len(board.season.weeks))
    flags = change_flags(board, old, weeks)
    moves = session_moves(board, old, weeks)
    return dict.fromkeys(flags.values(), PER_CELL) | dict.fromkeys(moves, PER_SESSION)


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
        return self._stage("doses", plan, self.worth(plan, old), max(0.0, found.bound), found)

    def readiness(self, plan: Plan) -> int:
        """Return stage 2's objective of a plan."""
        value = readiness_value(self.season, self.settings.prices, plan)
        return value + TENTH * self.paid(plan)

    def worth(self, plan: Plan, old: Plan) -> int:
        """Return stage 2's objective with the small prices of changes from ``old``."""
        weeks = [week for week in self.frozen.board.open_weeks() if week >= self.frozen.weeks]
        found = changed_cells(old, plan, self.frozen.weeks)
        changed = sum(not self.season.weeks[change.week].closed for change in found)
        moved = sum(
            abs(plan.field[week] - old.field[week]) + abs(plan.gym[week] - old.gym[week])
            for week in weeks
        )
        return self.readiness(plan) + PER_CELL * changed + PER_SESSION * moved

    def _stage(self, name: str, plan: Plan, objective: int, bound: float, found: Found) -> Stage:
        gap = max(0.0, (objective - bound) / max(1, objective))
        clean = self.clean(plan)
        closed = found.status == "optimal" or objective <= bound
        if clean and closed and bound <= objective:
            status: StageStatus = "proven"
        else:
            status = "within_gap" if clean and gap <= SMALL_GAP else "stopped"
        return Stage(name, status, objective, bound, gap, found.seconds, found.deterministic)
