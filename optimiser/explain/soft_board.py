"""The board to argue about: nothing is left out, and rows that only help others are known.

In a season in progress what is over is no matter of argument: it stands, and rows that history has
broken are left out.
"""

from collections.abc import Sequence

from optimiser.board.board import Board
from optimiser.board.model import Row
from optimiser.board.outline import Outline
from optimiser.change.decided import Decided
from optimiser.change.freeze import reopen, settle
from optimiser.domain.season import Season
from optimiser.rule import Rule

#: For the position of a row that helps: the variables it is there for.
Helpers = dict[int, frozenset[int]]


def soft_board(
    season: Season,
    rules: Sequence[Rule],
    decided: Decided | None = None,
    *,
    give_way: bool = False,
) -> tuple[Board, Helpers]:
    """Return the board with every rule posted as tagged rows, and its helper rows.

    Parameters
    ----------
    decided
        Weeks that are over, as they were done.
    give_way
        Leave what binds them to the weeks to come out of the argument too.

    Returns
    -------
    tuple
        The board, and the helper rows: untagged rows posted by a rule, those that make one
        variable of a rung, and those that give a quality a rung on a block. They can always be
        put right by the variables they are there for, so they matter only where one is used.
    """
    outline = Outline(season, soft=True)
    for rule in rules:
        rule.shape(outline)
    if decided is not None:
        reopen(outline, decided.past, decided.weeks, give_way=give_way)
    board = Board(outline)
    made, rows = len(board.model.lower), len(board.model.rows)
    for rule in rules:
        rule.post(board)
    own = _owners(board, made, rows)
    if decided is not None:
        settle(board, decided.past, decided.weeks, give_way=give_way)
    return board, {at: own[id(row)] for at, row in enumerate(board.model.rows) if id(row) in own}


def _owners(board: Board, made: int, rows: int) -> dict[int, frozenset[int]]:
    """Return, for each helper row by identity, the variables it is there for."""
    flags, steps = board.rung_flags(), frozenset(board.steps.values())
    found: dict[int, frozenset[int]] = {}
    for at, row in enumerate(board.model.rows):
        if row.tag is None:
            own = _made_by(row, flags) or _path(row, steps)
            if own is None and at >= rows:
                own = frozenset(var for var in row.terms if var >= made) - flags
            if own is not None:
                found[id(row)] = own
    return found


def _made_by(row: Row, flags: frozenset[int]) -> frozenset[int] | None:
    """Return the flag of a rung that the row makes from blocks, if it does."""
    own = flags.intersection(row.terms)
    if len(own) != 1 or not row.low == row.high == 0:
        return None
    return own if all(var in own or factor == 1 for var, factor in row.terms.items()) else None


def _path(row: Row, steps: frozenset[int]) -> frozenset[int] | None:
    """Return the choices of a rung that the row ties to a block, if it does.

    A quality nobody speaks of takes any rung on each block.
    """
    own = steps.intersection(row.terms)
    if not own or not row.low == row.high == 0 or len(row.terms) != len(own) + 1:
        return None
    return own if all(row.terms[var] == 1 for var in own) else None
