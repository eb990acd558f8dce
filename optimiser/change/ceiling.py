"""The most match score that any legal plan of a season could reach, by a linear relaxation.

Bands and doses are both open here, so it is a bound for every plan that keeps the rules, however
it was found.
"""

import math
from collections.abc import Sequence

from optimiser.board.board import Board
from optimiser.board.model import Model
from optimiser.change.decided import Decided
from optimiser.change.freeze import board_from
from optimiser.domain.season import Season
from optimiser.engine.relaxation import relaxation
from optimiser.joint_model.ready_terms import ready_terms
from optimiser.response.readiness import UNITS, kernel
from optimiser.review.score import PRIORITY_WEIGHT
from optimiser.rule import Rule

#: Match scores are counted in these parts of a point.
PARTS = 10
#: Readiness is counted in this many parts of a week's target.
FINE = 100_000
SECONDS = 20.0


def match_ceiling(
    season: Season,
    rules: Sequence[Rule],
    decided: Decided | None = None,
    seconds: float = SECONDS,
) -> float:
    """Return a match score, 0-100, that no plan keeping the rules exceeds.

    It is 100 if nothing better is proven in time.

    Parameters
    ----------
    decided
        Weeks that are over, which every plan has in common.
    """
    board = board_from(season, rules, decided)
    weight = _price_scores(board)
    if not weight:
        return 100.0
    _open_priced(board.model)
    found = relaxation(board.model, seconds)
    if found.bound is None:
        return 100.0
    return min(100.0, -found.bound / (PARTS * weight))


def _open_priced(model: Model) -> None:
    """Leave out rows with a price, as a plan may break them."""
    model.rows = [row for row in model.rows if row.tag is None or row.tag.price is None]


def _price_scores(board: Board) -> int:
    """Make the match score, to be raised, the model's cost; return the sum of weights."""
    season, model = board.season, board.model
    tables, background = kernel(season).whole()
    model.cost.clear()
    model.offset = 0
    weight = 0
    for week in season.weeks:
        here = sum(PRIORITY_WEIGHT[fixture.priority] for fixture in week.fixtures)
        if not here:
            continue
        weight += here
        reached = model.var(0, 100 * PARTS, f"score[{week.index}]")
        model.cost[reached] = -here
        goal = week.target * UNITS
        if goal > 0:
            unit = goal / FINE
            ready = ready_terms(board, tables, week.index)
            spare = math.ceil(background[week.index] / unit)
            # rounded up: never less than it is
            terms = {var: -math.ceil(gain / unit) for var, gain in ready.items()}
            model.at_most({**terms, reached: FINE // (100 * PARTS)}, spare)
    return weight
