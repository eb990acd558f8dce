"""What a minute on scarce ground is worth in the relaxation of all squads' seasons together."""

import math
from collections.abc import Sequence
from threading import Event

import highspy
import numpy as np

from optimiser.board.board import Board
from optimiser.board.model import Terms, total
from optimiser.change.freeze import freeze
from optimiser.club.ground import FREE, Ground
from optimiser.club.squad_season import SquadSeason
from optimiser.engine.interrupts import interruptible
from optimiser.engine.relaxation import linear_program, solved
from optimiser.joint_model.cost_rows import price_season
from optimiser.response.readiness import UNITS

#: Most that a minute is worth to a squad, in units of its season cost: beyond it hours are taken as
#: not to be had at any price.
DEAREST = 10 * UNITS
#: Wall-clock guard.
SECONDS = 60.0


def relaxed_prices(squads: Sequence[SquadSeason], grounds: Sequence[Ground]) -> list[int]:
    """Return a price of a minute for each ground, in units of the club's cost; 0 where not scarce.

    One linear program of all squads, each as its season's relaxation, and a row for each ground:
    the price is what one more minute there would save.
    """
    used = sorted({claim.squad for ground in grounds for claim in ground.claims})
    boards = {at: _priced(squads[at]) for at in used}
    programs = [linear_program(boards[at].model) for at in used]
    starts = np.cumsum([0, *(lp.num_col_ for lp in programs)])
    first = dict(zip(used, map(int, starts), strict=False))
    rows = [_row(boards, first, ground) for ground in grounds]
    weights = [squads[at].weight for at in used]
    joined = _joined(programs, weights, rows, grounds)
    stop = Event()
    highs, pressed = interruptible(lambda: solved(joined, SECONDS, "ipm", stop.is_set), stop.set)
    if pressed:
        raise KeyboardInterrupt
    if highs is None:
        return [0] * len(grounds)
    duals = highs.getSolution().row_dual[-len(grounds) :]
    return [max(0, round(-dual)) for dual in duals]


def _priced(squad: SquadSeason) -> Board:
    past = squad.decided.past if squad.decided else squad.plan
    board = freeze(squad.season, squad.rules, past, squad.over).board
    price_season(board, squad.settings.rates)
    return board


def _row(boards: dict[int, Board], first: dict[int, int], ground: Ground) -> Terms:
    """Return the minutes of a ground, over the columns of all squads."""
    parts = []
    for claim in ground.claims:
        for place in sorted(claim.places):
            terms = FREE.terms(boards[claim.squad], place, claim.week)
            parts.append({first[claim.squad] + var: value for var, value in terms.items()})
    return total(parts)


def _joined(
    programs: Sequence[highspy.HighsLp],
    weights: Sequence[int],
    rows: Sequence[Terms],
    grounds: Sequence[Ground],
) -> highspy.HighsLp:
    """Return programs side by side with a row for each ground, which may be broken dearly."""
    made = highspy.HighsLp()
    columns = [lp.num_col_ for lp in programs]
    made.num_col_ = sum(columns) + len(rows)
    made.num_row_ = sum(lp.num_row_ for lp in programs) + len(rows)
    slack = np.full(len(rows), float(DEAREST * max(weights)))
    weighed = [w * np.array(lp.col_cost_) for w, lp in zip(weights, programs, strict=True)]
    made.col_cost_ = np.concatenate([*weighed, slack])
    made.col_lower_ = np.concatenate([*(lp.col_lower_ for lp in programs), np.zeros(len(rows))])
    made.col_upper_ = np.concatenate(
        [*(lp.col_upper_ for lp in programs), np.full(len(rows), math.inf)]
    )
    low = [-math.inf] * len(rows)
    high = [float(ground.left) for ground in grounds]
    made.row_lower_ = np.concatenate([*(lp.row_lower_ for lp in programs), low])
    made.row_upper_ = np.concatenate([*(lp.row_upper_ for lp in programs), high])
    _fill(made, programs, rows, sum(columns))
    return made


def _fill(
    made: highspy.HighsLp,
    programs: Sequence[highspy.HighsLp],
    rows: Sequence[Terms],
    slack: int,
) -> None:
    """Put the rows of all programs and of the grounds into the joined one."""
    starts, index, value = [np.zeros(1, dtype=int)], [], []
    column = entries = 0
    for lp in programs:
        matrix = lp.a_matrix_
        starts.append(np.array(matrix.start_[1:], dtype=int) + entries)
        index.append(np.array(matrix.index_, dtype=int) + column)
        value.append(np.array(matrix.value_))
        column, entries = column + lp.num_col_, entries + len(matrix.index_)
    for at, row in enumerate(rows):
        index.append(np.array([*row, slack + at], dtype=int))
        value.append(np.array([*row.values(), -1.0], dtype=float))
        entries += len(row) + 1
        starts.append(np.array([entries]))
    made.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    made.a_matrix_.start_ = np.concatenate(starts)
    made.a_matrix_.index_ = np.concatenate(index)
    made.a_matrix_.value_ = np.concatenate(value)
