"""Why not another choice: it is forbidden, or it costs so much, or it is as good."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from optimiser.board.board import Board
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.engine.relaxation import relaxation
from optimiser.explain.clash import CAP, Argument, Clash, argue
from optimiser.explain.oracle import Clock
from optimiser.objective import Prices, price_readiness
from optimiser.replan.cells import CellChange, changed_cells
from optimiser.replan.near import Decided, solve_near
from optimiser.rule import Rule
from optimiser.score import match_score
from optimiser.solve import Settings, make_board
from optimiser.why.asked import Asked
from optimiser.why.at_matches import FixtureChange, match_changes
from optimiser.why.terms import Terms, emphasis_terms, readiness_terms

#: Seconds of linear relaxation for a bound on the doses.
BOUND_SECONDS = 3.0


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
    """What one objective costs more.

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
    emphasis, readiness
        Stage 1 comes first: readiness is compared among plans of the best emphasis.
    score
        Change of the match score, in points.
    moves
        Everything that changes.
    """

    plan: Plan
    emphasis: Cost
    readiness: Cost
    score: float
    fixtures: tuple[FixtureChange, ...]
    moves: tuple[CellChange, ...]

    @property
    def equal(self) -> bool:
        """Tell whether neither objective changes."""
        return self.emphasis.terms.total == 0 and self.readiness.terms.total == 0


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
    finding = argue(Argument(season, with_it, Clock(seconds), settings.seed), further=0)
    if finding.verdict == "clash":
        clash = finding.clashes[0]
        return Forbidden(clash, all(demand.rule != asked.name for demand in clash.demands))
    near = solve_near(season, with_it, plan, settings, decided)
    if near.plan is None:
        return "unknown"
    low = round(near.stages[0].bound)
    return _compared(season, rules, plan, near.plan, with_it, settings.prices, low)


def _compared(
    season: Season,
    rules: Sequence[Rule],
    old: Plan,
    new: Plan,
    with_it: Sequence[Rule],
    prices: Prices,
    emphasis_low: int,
) -> Possible:
    was = emphasis_terms(season, prices, old, rules)
    now = emphasis_terms(season, prices, new, rules)
    emphasis = Cost(now.minus(was), min(emphasis_low, now.total) - was.total)
    before = readiness_terms(season, prices, old, rules)
    after = readiness_terms(season, prices, new, rules)
    low = _readiness_bound(season, with_it, new, prices)
    return Possible(
        plan=new,
        emphasis=emphasis,
        readiness=Cost(after.minus(before), min(low, after.total) - before.total),
        score=(match_score(season, new).score or 0.0) - (match_score(season, old).score or 0.0),
        fixtures=match_changes(season, old, new),
        moves=tuple(changed_cells(old, new)),
    )


def _readiness_bound(season: Season, rules: Sequence[Rule], plan: Plan, prices: Prices) -> int:
    """Return a bound on stage 2 for the bands of ``plan``."""
    board: Board = make_board(season, rules)
    if not board.pin_blocks(plan):
        return 0
    price_readiness(board, prices, plan)
    return relaxation(board.model, BOUND_SECONDS).bound or 0
