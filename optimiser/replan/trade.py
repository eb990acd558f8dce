"""Planning on: match score against how much of the plan changes."""

import time
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from optimiser.audit import structure
from optimiser.board.board import Board
from optimiser.board.model import Model
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.engine.compact import compact
from optimiser.engine.search import Found, minimise
from optimiser.objective import price_readiness
from optimiser.replan.cells import change_flags, changed_cells, forced_changes, session_moves
from optimiser.replan.floor import post_match_floor
from optimiser.replan.freeze import freeze
from optimiser.replan.near import PER_CELL, Decided, Judge, Near, short, solve_near
from optimiser.rule import Rule
from optimiser.score import match_score
from optimiser.solve import Settings

#: Points below the best within which a plan counts as nearly as good.
NEARLY = 1.0
#: Points by which more changes must be better to be worth a line.
WORTH = 0.05
#: Deterministic limits of the least change over all bands, and with bands fixed.
LEAST, FIXED = 3.0, 0.6


@dataclass(frozen=True)
class Choice:
    """One plan on the trade-off.

    Parameters
    ----------
    kind
        ``least``: the fewest changed cells; ``same_bands``: as that, with the best doses;
        ``between``: the fewest that reach a floor under the match score, a point below the best
        or half way from the least change to it; ``best``.
    cells
        Changed cells from the first open week on.
    match
        Match score, 0-100; None if no fixture is left.
    forced
        Breaches that history leaves no way around.
    """

    kind: Literal["least", "same_bands", "between", "best"]
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
        The search for the best plan, with its stages.
    """

    status: Literal["planned", "clash", "out_of_time"]
    choices: tuple[Choice, ...]
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
    search = _Search(season, rules, old, decided, settings, best)
    plans: list[tuple[Literal["least", "same_bands", "between", "best"], Plan]] = []
    least, at_least = (old, 0) if search.stands() else search.least()
    if least is old:
        plans.append(("least", old))
    elif least is not None:
        plans.append(("least", search.improved(least, most=search.cells(least))))
    if least is not None:
        plans.append(("same_bands", search.improved(least, most=None)))
    plans.append(("best", best.plan))
    top, low = max(search.match(plan) for _, plan in plans), search.match(plans[0][1])
    floor = max(top - NEARLY, (top + low) / 2)
    for bands in [plan for plan in (least, best.plan) if plan is not None]:
        between = search.reaching(bands, floor)
        if between is not None:
            plans.append(("between", between))
    choices = _undominated([search.choice(kind, search.settled(plan)) for kind, plan in plans])
    return TradeOff("planned", choices, at_least, best, time.perf_counter() - began)


class _Search:
    """The searches beside the one for the best plan."""

    def __init__(
        self,
        season: Season,
        rules: Sequence[Rule],
        old: Plan,
        decided: Decided,
        settings: Settings,
        best: Near,
    ) -> None:
        self.season, self.rules, self.old = season, rules, old
        self.decided, self.settings = decided, settings
        self.give_way = best.gave_way
        self.weeks = range(decided.weeks, len(season.weeks))
        frozen = freeze(season, rules, decided.past, decided.weeks)
        self.judge = Judge(season, rules, settings, frozen)

    def board(self, bands: Plan | None = None) -> Board:
        frozen = freeze(
            self.season, self.rules, self.decided.past, self.decided.weeks, give_way=self.give_way
        )
        if bands is not None:
            frozen.board.pin_blocks(bands)
        return frozen.board

    def cells(self, plan: Plan) -> int:
        return len(changed_cells(self.old, plan, self.decided.weeks))

    def match(self, plan: Plan) -> float:
        return match_score(self.season, plan).score or 0.0

    def choice(self, kind: Literal["least", "same_bands", "between", "best"], plan: Plan) -> Choice:
        score = match_score(self.season, plan).score
        return Choice(kind, plan, self.cells(plan), score, self.judge.breaches(plan))

    def stands(self) -> bool:
        """Tell whether the old plan may go on as it is, after what was done."""
        past, weeks = self.decided.past, self.decided.weeks
        rows = zip((*self.old.rungs, *self.old.doses), (*past.rungs, *past.doses), strict=True)
        same = all(old[:weeks] == lived[:weeks] for old, lived in rows)
        return same and not structure(self.season, self.old) and self.judge.clean(self.old)

    def settled(self, plan: Plan) -> Plan:
        """Return a plan with the old sessions in every week that is otherwise as it was."""
        touched = {change.week for change in changed_cells(self.old, plan, self.decided.weeks)}
        field, gym = list(plan.field), list(plan.gym)
        for week in set(self.weeks) - touched:
            field[week], gym[week] = self.old.field[week], self.old.gym[week]
        kept = plan.model_copy(update={"field": tuple(field), "gym": tuple(gym)})
        more = len(self.judge.breaches(kept)) > len(self.judge.breaches(plan))
        return plan if more or structure(self.season, kept) else kept

    def least(self) -> tuple[Plan | None, int]:
        """Return a plan with few changed cells, and how many every legal plan has at least."""
        board = self.board()
        forced = forced_changes(board, self.old, self.decided.weeks)
        weight = self._count_changes(board)
        found = self._minimise(board, board.model, LEAST)
        if not found.values:
            return None, forced
        # what gives way is paid for on top, and sessions moved add less than one cell
        paid = (found.objective or 0) - sum(
            factor * found.values[var] for var, factor in board.model.cost.items()
        )
        at_least = forced + max(0, int((found.bound - paid) // weight))
        return board.read(found.values), at_least

    def improved(self, bands: Plan, most: int | None) -> Plan:
        """Return the best doses for the bands of a plan with at most so many changed cells."""
        board = self.board(bands)
        flags = change_flags(board, self.old, self.weeks)
        if most is not None:
            forced = forced_changes(board, self.old, self.decided.weeks)
            board.model.at_most(dict.fromkeys(flags.values(), 1), most - forced)
        price_readiness(board, self.settings.prices, bands)
        if most is None:
            board.model.cost |= dict.fromkeys(flags.values(), PER_CELL)
        found = self._solve_small(board, bands)
        return bands if found is None else found

    def reaching(self, bands: Plan, floor: float) -> Plan | None:
        """Return the plan with these bands that reaches ``floor`` with the fewest changes."""
        board = self.board(bands)
        post_match_floor(board, bands, floor)
        self._count_changes(board)
        return self._solve_small(board, None)

    def _count_changes(self, board: Board) -> int:
        """Make changed cells the cost, then sessions moved; return the cost of a cell."""
        flags = change_flags(board, self.old, self.weeks)
        moves = session_moves(board, self.old, self.weeks)
        weight = 5 * len(moves) + 1
        board.model.cost = dict.fromkeys(flags.values(), weight) | dict.fromkeys(moves, 1)
        board.model.offset = 0
        return weight

    def _solve_small(self, board: Board, start: Plan | None) -> Plan | None:
        small = compact(board.model)
        hint = small.shrink(board.hint(start)) if start is not None else None
        found = self._minimise(board, small.model, FIXED, hint)
        return board.read(small.expand(found.values)) if found.values else None

    def _minimise(
        self, board: Board, model: Model, limit: float, hint: dict[int, int] | None = None
    ) -> Found:
        return minimise(model, short(self.settings, limit), hint=hint)


def _undominated(choices: Sequence[Choice]) -> tuple[Choice, ...]:
    """Return the plans that none other beats in both, fewest changes first."""
    ordered = sorted(choices, key=lambda each: (each.cells, -(each.match or 0.0)))
    kept: list[Choice] = []
    for each in ordered:
        if not kept or (each.match or 0.0) > (kept[-1].match or 0.0) + WORTH:
            kept.append(each)
    return tuple(kept)
