"""Readiness of a week as a sum over the work of all weeks up to it."""

from collections.abc import Sequence

from optimiser.board.board import Board
from optimiser.board.model import Terms
from optimiser.response.readiness import Ints


def ready_terms(board: Board, tables: Sequence[Ints], week: int) -> Terms:
    """Return what each band and dose adds to readiness in a week (from 0), in whole units.

    Parameters
    ----------
    tables
        Of `Kernel.whole`, one a quality.
    """
    return {
        var: int(gain)
        for index in range(len(board.season.qualities))
        for past in board.open_weeks()
        if past <= week
        for rung, made in board.work(index, past).items()
        for var, gain in zip(made, tables[index][week - past, rung, 1:], strict=True)
        if gain
    }
