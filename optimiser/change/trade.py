"""Planning on: match score against how much of the plan changes."""

import time
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from optimiser.board.board import Board
from optimiser.change.cells import change_flags, changed_cells, forced_changes, session_moves
from optimiser.change.decided import Decided
from optimiser.change.freeze import GivenWay
from optimiser.change.near import Near, board_giving, charge_changes, solve_near
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.engine.cp_sat_search import minimise
from optimiser.joint_model.drive import drive
from optimiser.joint_model.effort import Settings
from optimiser.review.audit import must_breaches, structure
from optimiser.review.score import match_score
from optimiser.rule import Rule

#: Deterministic limit of the search for the least change.
LEAST = 3.0
Kind = Literal["least", "between", "best"]
#: Points by which more changes must be better to be worth a line.
WORTH = 0.05


@dataclass(frozen=True)
class WayOn:
    """One plan on the trade-off.

    Parameters
    ----------
    kind
        ``least``: the fewest changed cells; ``between``: the best with at most half as many as the
        best plan has more than that; ``best``.
    cells
        Changed cells from the first open week on.
    match
        Match score, 0-100; None if no fixture is left.
    forced
        Breaches that history leaves no way around.
    """

    kind: Kind
    plan: Plan
    cells: int
    match: float | None
    forced: tuple[Breach, ...]


@dataclass(frozen=True)
class TradeOff:
    """Plans from the least change to the best, none of them worse in both than another.

    Parameters
    ----------
    at_least
        Changed cells that every legal plan has, proven.
    best
        The search for the best plan, with what is proven.
    """

    status: Literal["planned", "clash", "out_of_time"]
    choices: tuple[WayOn, ...]
    at_least: int
    best: Near
    seconds: float


def trade_off(
    season: Season, rules: Sequence[Rule], old: Plan, decided: Decided, settings: Settings
) -> TradeOff:
    """Return plans that keep the decided weeks, from the least change to the best.

    Parameters
    ----------
    old
        The plan that changes are counted from.
    """
    began = time.perf_counter()
    best = solve_near(season, rules, old, settings, decided)
    if best.plan is None:
        return TradeOff(best.status, (), 0, best, time.perf_counter() - began)
    search = _WaysBetween(season, rules, old, decided, settings, best.given)
    plans: list[tuple[Kind, Plan]] = [("best", best.plan)]
    least, at_least = (old, 0) if search.stands() else search.least()
    if least is old:
        plans.append(("least", old))
    elif least is not None:
        plans.append(("least", search.improved(least, search.cells(least))))
    if least is not None:
        fewest, most = search.cells(least), search.cells(best.plan)
        if (half := (fewest + most) // 2) > fewest:
            plans.append(("between", search.improved(least, half)))
    choices = _undominated([search.choice(kind, search.settled(plan)) for kind, plan in plans])
    return TradeOff("planned", choices, at_least, best, time.perf_counter() - began)


@dataclass(frozen=True)
class _WaysBetween:
    """The searches beside the one for the best plan."""

    season: Season
    rules: Sequence[Rule]
    old: Plan
    decided: Decided
    settings: Settings
    given: GivenWay | None

    def board(self) -> Board:
        return board_giving(self.season, self.rules, self.decided, self.given).board

    def cells(self, plan: Plan) -> int:
        return len(changed_cells(self.old, plan, self.decided.weeks))

    def choice(self, kind: Kind, plan: Plan) -> WayOn:
        score = match_score(self.season, plan).score
        return WayOn(kind, plan, self.cells(plan), score, self.breaches(plan))

    def stands(self) -> bool:
        """Tell whether the old plan may go on as it is, after what was done."""
        past, weeks = self.decided.past, self.decided.weeks
        rows = zip((*self.old.rungs, *self.old.doses), (*past.rungs, *past.doses), strict=True)
        same = all(old[:weeks] == lived[:weeks] for old, lived in rows)
        return same and not structure(self.season, self.old) and not self.breaches(self.old)

    def breaches(self, plan: Plan) -> tuple[Breach, ...]:
        return must_breaches(self.season, self.rules, plan, self.decided.weeks)

    def settled(self, plan: Plan) -> Plan:
        """Return a plan with the old sessions in every week that is otherwise as it was."""
        touched = {change.week for change in changed_cells(self.old, plan, self.decided.weeks)}
        field, gym = list(plan.field), list(plan.gym)
        for week in set(range(self.decided.weeks, len(self.season.weeks))) - touched:
            field[week], gym[week] = self.old.field[week], self.old.gym[week]
        kept = plan.model_copy(update={"field": tuple(field), "gym": tuple(gym)})
        more = len(self.breaches(kept)) > len(self.breaches(plan))
        return plan if more or structure(self.season, kept) else kept

    def least(self) -> tuple[Plan | None, int]:
        """Return a plan with few changed cells, and how many every legal plan has at least."""
        board = self.board()
        forced = forced_changes(board, self.old, self.decided.weeks)
        weight = self._count_changes(board)
        effort = replace(self.settings.effort(LEAST), presolve="light")
        found = minimise(board.model, effort)
        if not found.values:
            return None, forced
        # what gives way is paid for on top, and sessions moved add less than one cell
        paid = (found.objective or 0) - sum(
            factor * found.values[var] for var, factor in board.model.cost.items()
        )
        at_least = forced + max(0, int((found.bound - paid) // weight))
        return board.read(found.values), at_least

    def improved(self, start: Plan, most: int) -> Plan:
        """Return the best plan found from ``start`` with at most so many changed cells."""
        board, first = self.board(), self.decided.weeks
        forced = forced_changes(board, self.old, first)

        def few(board: Board) -> None:
            flags = charge_changes(board, self.old, first)
            board.model.at_most(dict.fromkeys(flags, 1), most - forced)

        found = drive(board, replace(self.settings, quick=True), start=start, also=few)
        return board.read(found.values) if found.values else start

    def _count_changes(self, board: Board) -> int:
        """Make changed cells the cost, then sessions moved; return the cost of a cell."""
        weeks = range(self.decided.weeks, len(self.season.weeks))
        flags = change_flags(board, self.old, weeks)
        moves = session_moves(board, self.old, weeks)
        weight = 5 * len(moves) + 1
        board.model.cost = dict.fromkeys(flags.values(), weight) | dict.fromkeys(moves, 1)
        board.model.offset = 0
        return weight


def _undominated(choices: Sequence[WayOn]) -> tuple[WayOn, ...]:
    """Return the plans that none other beats in both, fewest changes first."""
    ordered = sorted(choices, key=lambda each: (each.cells, -(each.match or 0.0)))
    kept: list[WayOn] = []
    for each in ordered:
        if not kept or (each.match or 0.0) > (kept[-1].match or 0.0) + WORTH:
            kept.append(each)
    return tuple(kept)
