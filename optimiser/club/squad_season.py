"""One squad's season as its club plans it, on the hours there are."""

from collections.abc import Sequence
from dataclasses import dataclass

from optimiser.board.board import Board
from optimiser.change.decided import Decided
from optimiser.change.freeze import freeze
from optimiser.change.near import charge_changes
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.engine.cp_sat_search import Found
from optimiser.joint_model.cost import season_cost
from optimiser.joint_model.drive import drive
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.ground_minutes import GroundMinutes
from optimiser.joint_model.verdict import Verdict, judged
from optimiser.rule import Rule


@dataclass(frozen=True)
class SquadSeason:
    """A squad's season.

    Parameters
    ----------
    weight
        What a point of it counts in the club; who weighs less gives way.
    plan, bound
        Its best plan alone, and what no plan of it costs less than, in units of the season cost.
    decided
        What is over of it; left out, nothing.
    """

    name: str
    weight: int
    season: Season
    rules: tuple[Rule, ...]
    settings: Settings
    plan: Plan
    bound: float
    decided: Decided | None = None

    @property
    def over(self) -> int:
        """Return how many of its weeks are over."""
        return 0 if self.decided is None else self.decided.weeks


@dataclass(frozen=True)
class FittedPlan:
    """A squad's plan on the hours it is given.

    Parameters
    ----------
    bound
        No plan costs less, what its hours cost among it.
    """

    plan: Plan
    bound: float


def best_plan(
    squad: SquadSeason, hours: GroundMinutes, start: Plan, *, near: bool = False
) -> FittedPlan | None:
    """Return a squad's best plan where hours cost something or are few; None if there is none.

    Parameters
    ----------
    start
        A plan to start from; it need not fit.
    near
        Of plans as good take that nearest to ``start``: weeks that have nothing to do with the
        hours stay as they are. The bound then speaks of the changes too.

    Raises
    ------
    KeyboardInterrupt
        If Ctrl-C ended the search.
    """
    past = squad.decided.past if squad.decided else squad.plan
    board = freeze(squad.season, squad.rules, past, squad.over).board
    hours.hold(board)

    def charge(board: Board) -> None:
        hours.charge(board)
        if near:
            charge_changes(board, start, squad.over)

    found = drive(board, squad.settings, start=start, also=charge, few=not near)
    if found.cut_short:
        raise KeyboardInterrupt
    return FittedPlan(board.read(found.values), found.bound) if found.values else None


def verdict_of(squad: SquadSeason, plan: Plan, seconds: float) -> Verdict:
    """Judge a plan of a squad among all plans of that squad, whatever the others do."""
    cost = cost_of(squad, plan)
    found = Found("feasible", [], cost, min(squad.bound, cost), seconds, 0.0)
    rates, close = squad.settings.rates, squad.settings.close
    return judged(squad.season, squad.rules, plan, found, rates, close, first=squad.over)


def cost_of(squad: SquadSeason, plan: Plan) -> int:
    """Return what a plan costs its squad, in units of the season cost."""
    return season_cost(squad.season, squad.rules, plan, squad.settings.rates).total


def club_cost(squads: Sequence[SquadSeason], plans: Sequence[Plan]) -> int:
    """Return what the plans of all squads cost the club, each by its weight."""
    return sum(s.weight * cost_of(s, plan) for s, plan in zip(squads, plans, strict=True))
