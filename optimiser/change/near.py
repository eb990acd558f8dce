"""The best plan that stays near another one: of plans as good, the nearest wins."""

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from optimiser.board.board import Board
from optimiser.change.cells import change_flags, changed_cells, session_moves
from optimiser.change.decided import Decided
from optimiser.change.freeze import Frozen, GivenWay, freeze, given_way, hold_past
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.engine.cp_sat_search import Found, minimise
from optimiser.joint_model.drive import Watch, drive
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import BetterPlan, Outcome
from optimiser.joint_model.verdict import Verdict, judged
from optimiser.response.readiness import UNITS
from optimiser.review.audit import must_breaches
from optimiser.rule import Rule

#: What one changed cell must bring, and one session moved, in units of the season cost: so little
#: that only equally good plans are told apart by it.
PER_CELL, PER_SESSION = UNITS // 50, UNITS // 100
#: Deterministic limit of the question whether there is any plan.
ANY_PLAN = 10.0


@dataclass(frozen=True)
class Near:
    """A plan near another one.

    Parameters
    ----------
    forced
        Breaches from the first open week on, which history forces.
    given
        By how much rules that bind history to what follows had to give way; None if they had not.
    """

    status: Literal["planned", "clash", "out_of_time"]
    plan: Plan | None
    verdict: Verdict | None
    seconds: float
    forced: tuple[Breach, ...] = ()
    given: GivenWay | None = None
    stopped: bool = False

    @property
    def outcome(self) -> Outcome:
        """Return the same as the outcome of a search for a season."""
        return Outcome(self.status, self.plan, self.verdict, self.seconds, self.stopped)


@dataclass(frozen=True)
class _Calls:
    """Who is asked or told during a search, and the plan that it starts from."""

    also: Callable[[Board], None] | None
    watch: Watch | None
    shown: Callable[[Frozen, Found], None] | None
    start: Plan


def solve_near(
    season: Season,
    rules: Sequence[Rule],
    old: Plan,
    settings: Settings,
    decided: Decided | None = None,
    *,
    also: Callable[[Board], None] | None = None,
    watch: Watch | None = None,
    better: BetterPlan | None = None,
    start: Plan | None = None,
) -> Near:
    """Return the best plan, and of equally good ones that nearest to ``old``.

    Parameters
    ----------
    start
        A plan that the search starts from; left out, ``old``.
    decided
        Weeks that stand; left out, every week is open.
    also
        Asks more of the board before it is searched.
    watch
        Called with each better plan found.
    better
        Shown better plans every few seconds before the search has ended.
    """
    began = time.perf_counter()
    decided = decided or Decided(old, 0)

    def read(frozen: Frozen, found: Found) -> tuple[Plan, Verdict]:
        plan = frozen.board.read(found.values)
        return plan, judged(
            season,
            rules,
            plan,
            found,
            settings.rates,
            settings.close,
            changes=change_charge(frozen.board, old, plan, decided.weeks),
            excused=frozen.excused(),
            first=decided.weeks,
        )

    def shown(frozen: Frozen, found: Found) -> None:
        if better is not None:
            better(*read(frozen, found))

    calls = _Calls(also, watch, shown if better else None, start or old)
    frozen, found = _searched(season, rules, old, settings, decided, calls, None)
    given = None
    if found.status == "infeasible" and _history_is_why(rules, decided, settings):
        given = least_given(season, rules, decided, settings)
        frozen, found = _searched(season, rules, old, settings, decided, calls, given)
    if not found.values:
        clash = found.status == "infeasible"
        none: Literal["clash", "out_of_time"] = "clash" if clash else "out_of_time"
        took = time.perf_counter() - began
        return Near(none, None, None, took, stopped=found.cut_short)
    plan, verdict = read(frozen, found)
    forced = must_breaches(season, rules, plan, decided.weeks)
    took = time.perf_counter() - began
    return Near("planned", plan, verdict, took, forced, given, found.cut_short)


def least_given(
    season: Season, rules: Sequence[Rule], decided: Decided, settings: Settings
) -> GivenWay:
    """Return by how much rules give way to history, as little as they can; {} if none is found."""
    frozen = freeze(season, rules, decided.past, decided.weeks, give_way=True)
    frozen.board.model.cost.clear()
    effort = replace(settings.effort(ANY_PLAN), presolve="light")
    found = minimise(frozen.board.model, effort)
    return given_way(frozen, found.values) if found.values else {}


def board_giving(
    season: Season, rules: Sequence[Rule], decided: Decided, given: GivenWay | None
) -> Frozen:
    """Return the board of a season in progress, on which rules give way to history as told."""
    give_way = given is not None
    frozen = freeze(season, rules, decided.past, decided.weeks, give_way=give_way)
    return frozen if given is None else hold_past(frozen, given)


def _history_is_why(rules: Sequence[Rule], decided: Decided, settings: Settings) -> bool:
    """Tell whether there would be a plan, had all gone as planned."""
    if not decided.weeks or decided.planned is None:
        return decided.weeks > 0
    board = freeze(decided.planned[0], rules, decided.planned[1], decided.weeks).board
    effort = replace(settings.effort(ANY_PLAN), presolve="light")
    return minimise(board.model, effort).status != "infeasible"


def _searched(
    season: Season,
    rules: Sequence[Rule],
    old: Plan,
    settings: Settings,
    decided: Decided,
    calls: _Calls,
    given: GivenWay | None,
) -> tuple[Frozen, Found]:
    frozen = board_giving(season, rules, decided, given)
    if calls.also is not None:
        calls.also(frozen.board)

    def charge(board: Board) -> None:
        charge_changes(board, old, decided.weeks)

    shown = calls.shown
    better = None if shown is None else lambda found: shown(frozen, found)
    return frozen, drive(
        frozen.board, settings, start=calls.start, also=charge, watch=calls.watch, better=better
    )


def charge_changes(board: Board, old: Plan, first: int) -> list[int]:
    """Charge a priced board a little for every choice from week ``first`` on that is another.

    Returns
    -------
    list of int
        The variables that tell whether a cell is changed.
    """
    weeks = range(first, len(board.season.weeks))
    flags = list(change_flags(board, old, weeks).values())
    for flag in flags:
        board.model.cost[flag] = PER_CELL
    for moved in session_moves(board, old, weeks):
        board.model.cost[moved] = PER_SESSION
    return flags


def change_charge(board: Board, old: Plan, plan: Plan, first: int) -> int:
    """Return what a plan is charged for what it does otherwise, from the plans alone."""
    weeks = [week for week in board.open_weeks() if week >= first]
    cells = sum(change.week in weeks for change in changed_cells(old, plan, first))
    moved = sum(
        abs(plan.field[week] - old.field[week]) + abs(plan.gym[week] - old.gym[week])
        for week in weeks
    )
    return PER_CELL * cells + PER_SESSION * moved
