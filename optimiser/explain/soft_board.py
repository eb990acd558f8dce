"""The board to argue about: nothing is left out, and every rule's own helper rows are known."""

from collections.abc import Sequence

from optimiser.board.board import Board
from optimiser.board.outline import Outline
from optimiser.domain.season import Season
from optimiser.rule import Rule


def soft_board(season: Season, rules: Sequence[Rule]) -> tuple[Board, dict[int, str]]:
    """Return the board with every rule posted as tagged rows, and its helper rows.

    Returns
    -------
    tuple
        The board, and for the position of each untagged row that a rule posted that rule's name:
        such rows define variables of that rule's own and bind nobody else.
    """
    outline = Outline(season, soft=True)
    for rule in rules:
        rule.shape(outline)
    board = Board(outline)
    helpers: dict[int, str] = {}
    for rule in rules:
        before = len(board.model.rows)
        rule.post(board)
        for at in range(before, len(board.model.rows)):
            if board.model.rows[at].tag is None:
                helpers[at] = rule.name
    return board, helpers
