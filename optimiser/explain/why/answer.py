"""Why not another choice: it is forbidden, or it costs so much, or it is as good."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from optimiser.change.cells import CellChange, changed_cells
from optimiser.change.decided import Decided
from optimiser.change.near import Near, solve_near
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.explain.clash import CAP, Argument, Clash, argue
from optimiser.explain.oracle import Clock
from optimiser.explain.why.asked import Asked
from optimiser.explain.why.at_matches import FixtureChange, match_changes
from optimiser.explain.why.terms import Terms, cost_terms
from optimiser.joint_model.effort import Settings
from optimiser.review.score import match_score
from optimiser.rule import Rule


@dataclass(frozen=True)
class Forbidden:
    """No plan with this choice keeps the rules; ``asked`` is a part of the clash.

    Parameters
    ----------
    season_clashes
        True if the rules clash even without the choice.
    """

    clash: Clash
    season_clashes: bool


@dataclass(frozen=True)
class Cost:
    """What the season costs more.

    Parameters
    ----------
    terms
        They add up to the cost of the best plan found.
    low
        No plan with the choice costs less than this; equal to the sum of the terms if proven.
    """

    terms: Terms
    low: int

    @property
    def proven(self) -> bool:
        """Tell whether the cost is known exactly."""
        return self.low >= self.terms.total


@dataclass(frozen=True)
class Possible:
    """A plan with the choice, set against the one at hand.

    Parameters
    ----------
    score
        Change of the match score, in points.
    moves
        Everything that changes.
    """

    plan: Plan
    cost: Cost
    score: float
    fixtures: tuple[FixtureChange, ...]
    moves: tuple[CellChange, ...]

    @property
    def equal(self) -> bool:
        """Tell whether the season costs as much."""
        return self.cost.terms.total == 0


Answer = Forbidden | Possible | Literal["unknown"]


def why_not(
    season: Season,
    rules: Sequence[Rule],
    plan: Plan,
    asked: Asked,
    settings: Settings,
    *,
    seconds: float = CAP,
    decided: Decided | None = None,
) -> Answer:
    """Answer in this order: is it allowed, what does it cost, is it equal.

    Parameters
    ----------
    settings
        Of the search for the best plan with the choice.
    seconds
        Limit of the first question.
    decided
        Weeks that stand, in a season in progress.
    """
    with_it = [*rules, asked]
    argument = Argument(season, with_it, Clock(seconds), settings.seed, decided, give_way=True)
    finding = argue(argument, further=0)
    if finding.verdict == "clash":
        clash = finding.clashes[0]
        return Forbidden(clash, all(demand.rule != asked.name for demand in clash.demands))
    near = solve_near(season, with_it, plan, settings, decided)
    return possible(season, rules, asked, plan, near, settings)


def possible(
    season: Season,
    rules: Sequence[Rule],
    asked: Rule,
    plan: Plan,
    near: Near,
    settings: Settings,
) -> Possible | Literal["unknown"]:
    """Return what the best plan with a choice comes to beside ``plan``."""
    if near.plan is None or near.verdict is None:
        return "unknown"
    was = cost_terms(season, rules, plan, settings.rates)
    now = cost_terms(season, [*rules, asked], near.plan, settings.rates)
    # the bound also speaks of what each changed cell is charged
    low = math.floor(near.verdict.bound) - near.verdict.changes
    return Possible(
        plan=near.plan,
        cost=Cost(now.minus(was), min(low, now.total) - was.total),
        score=_score(season, near.plan) - _score(season, plan),
        fixtures=match_changes(season, plan, near.plan),
        moves=tuple(changed_cells(plan, near.plan)),
    )


def _score(season: Season, plan: Plan) -> float:
    return match_score(season, plan).score or 0.0
