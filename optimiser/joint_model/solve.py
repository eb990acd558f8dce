"""From a season and its rules to a plan, with what is proven of it."""

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from optimiser.board.board import Board
from optimiser.board.outline import Outline
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.engine.cp_sat_search import Found
from optimiser.joint_model.drive import Watch, drive
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.verdict import Verdict, judged
from optimiser.rule import Rule

#: Shown a better plan before the search has ended, with what can be said of it by then.
BetterPlan = Callable[[Plan, Verdict], None]


@dataclass(frozen=True)
class Outcome:
    """A plan with what is proven of it, or why there is none.

    Parameters
    ----------
    status
        ``clash``: proven that no plan keeps the rules. ``out_of_time``: no plan was found in time,
        which proves nothing.
    stopped
        True if the search was interrupted.
    """

    status: Literal["planned", "clash", "out_of_time"]
    plan: Plan | None
    verdict: Verdict | None
    seconds: float
    stopped: bool = False


def make_board(season: Season, rules: Sequence[Rule]) -> Board:
    """Return the board of a season with every rule posted."""
    outline = Outline(season)
    for rule in rules:
        rule.shape(outline)
    board = Board(outline)
    for rule in rules:
        rule.post(board)
    return board


def solve_season(
    season: Season,
    rules: Sequence[Rule],
    settings: Settings | None = None,
    *,
    watch: Watch | None = None,
    start: Plan | None = None,
    better: BetterPlan | None = None,
) -> Outcome:
    """Find the best plan over blocks, bands, doses and sessions, and say how well it is proven.

    Parameters
    ----------
    watch
        Called with each better plan found.
    start
        A plan to start from; it need not be legal.
    better
        Shown better plans every few seconds before the search has ended.
    """
    settings = settings or Settings()
    began = time.perf_counter()
    board = make_board(season, rules)

    def read(found: Found) -> tuple[Plan, Verdict]:
        plan = board.read(found.values)
        return plan, judged(season, rules, plan, found, settings.rates, settings.close)

    shown = None if better is None else lambda found: better(*read(found))
    found = drive(board, settings, start=start, watch=watch, better=shown)
    seconds = time.perf_counter() - began
    if not found.values:
        clash = found.status == "infeasible"
        status: Literal["clash", "out_of_time"] = "clash" if clash else "out_of_time"
        return Outcome(status, None, None, seconds, found.cut_short)
    plan, verdict = read(found)
    return Outcome("planned", plan, verdict, seconds, found.cut_short)
