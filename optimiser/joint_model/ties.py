"""Which of several best plans is taken: one that does not hang on how a season is written down."""

import time
from collections.abc import Mapping
from dataclasses import replace
from zlib import crc32

from optimiser.board.board import Board
from optimiser.board.model import Model, Row
from optimiser.domain.quality import Quality
from optimiser.engine.branch_and_bound import SearchLimits, branch_and_bound
from optimiser.engine.large_neighbourhood_search import Neighbourhoods
from optimiser.engine.objective import value_of
from optimiser.engine.presolve import presolved
from optimiser.engine.reduced_cost_fixing import without_dearer

#: Weights are whole numbers below this; two plans with the same sum are not to be expected.
MOST = 1 << 12
#: Steps that are as good as no limit: the clock is the guard.
ENDLESS = 10**9


def tie_weights(board: Board) -> dict[int, int]:
    """Return a weight for each band and dose in each week, by what it is and not where it stands.

    Names of qualities, their order and that of fixtures do not matter.
    """
    ranks = _ranks(board.season.qualities)
    weights = {
        var: _weight(ranks[quality], week, rung, dose)
        for week in board.open_weeks()
        for quality in range(len(ranks))
        for rung, made in board.work(quality, week).items()
        for dose, var in enumerate(made, 1)
    }
    for (quality, arc, rung, _, _), var in board.steps.items():
        weights[var] = sum(_weight(ranks[quality], week, rung, 0) for week in arc.weeks)
    return weights


def settled(
    model: Model, values: list[int], weights: Mapping[int, int], seconds: float
) -> list[int]:
    """Return the solution of least weight among those that cost what a best one costs.

    Parameters
    ----------
    values
        A best solution; it is returned if time runs out.

    Raises
    ------
    KeyboardInterrupt
        On Ctrl-C.
    """
    best = value_of(model, values)
    as_good = Row(dict(model.cost), None, best - model.offset)
    began = time.perf_counter()
    relaxed = Neighbourhoods(model, ()).relaxed(seconds)
    near = without_dearer(model, relaxed, best + 1, values)
    small = presolved(replace(near, rows=[*model.rows, as_good], cost=dict(weights), offset=0))
    left = max(0.0, seconds - (time.perf_counter() - began))
    limits = SearchLimits(gap=0.0, most=ENDLESS, seconds=left, seek=False, restarts=False)
    found = branch_and_bound(small.model, limits, hint=small.shrink(dict(enumerate(values))))
    if found.cut_short:
        raise KeyboardInterrupt
    least = small.expand(found.values) if found.status == "optimal" else values
    return least if value_of(model, least) == best else values


def _ranks(qualities: tuple[Quality, ...]) -> list[int]:
    """Return each quality's place among all, by what it is apart from its name."""
    told = [quality.model_dump_json(exclude={"name"}) for quality in qualities]
    return [sorted(told).index(each) for each in told]


def _weight(rank: int, week: int, rung: int, dose: int) -> int:
    return crc32(f"{rank} {week} {rung} {dose}".encode()) % MOST
