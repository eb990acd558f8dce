"""A floor under the match score, as rows: for bands that are fixed."""

import math
from collections.abc import Sequence

from optimiser.board.board import Board
from optimiser.board.model import Terms
from optimiser.domain.plan import Plan
from optimiser.readiness import UNITS, Ints, kernel
from optimiser.score import PRIORITY_WEIGHT

#: Match scores are counted in these parts of a point.
PARTS = 10


def post_match_floor(board: Board, bands: Plan, floor: float) -> None:
    """Ask for a match score of at least ``floor`` points, 0-100.

    Parameters
    ----------
    bands
        Blocks and bands; those of the board must be fixed to them.
    """
    season, model = board.season, board.model
    tables, background = kernel(season).whole()
    score: Terms = {}
    weight = 0
    for week in season.weeks:
        here = sum(PRIORITY_WEIGHT[fixture.priority] for fixture in week.fixtures)
        weight += here
        if not here:
            continue
        reached = model.var(0, 100 * PARTS, f"score[{week.index}]")
        score[reached] = here
        goal = round(week.target * UNITS)
        if goal > 0:
            ready = _ready(board, bands, tables, week.index)
            most = {var: -100 * PARTS * gain for var, gain in ready.items()}
            model.at_most({**most, reached: goal}, 100 * PARTS * int(background[week.index]))
    if weight:
        model.at_least(score, math.ceil(floor * PARTS * weight))


def _ready(board: Board, bands: Plan, tables: Sequence[Ints], week: int) -> Terms:
    """Return what doses add to a week's readiness, in kernel units."""
    terms: Terms = {}
    for past in board.open_weeks():
        if past > week:
            break
        for quality, table in enumerate(tables):
            rung = bands.rungs[quality][past]
            assert rung is not None
            by_dose = table[week - past, rung]
            for least in (1, 2, 3):
                gain = int(by_dose[least] - by_dose[least - 1])
                for var in board.at_least(quality, past, least):
                    if gain:
                        terms[var] = gain
    return terms
