"""Blocks and bands alone: the cost a first plan is searched by, set up and worked out again."""

from dataclasses import dataclass

import numpy as np

from optimiser.domain.rates import Rates
from optimiser.joint_model.start import price_bands


@dataclass(frozen=True)
class Prices:
    """What opening a block costs, and how many points of emphasis off cost nothing."""

    block: int = 80
    tolerance: int = 8


def price_emphasis(board, prices):
    """Make bands off the emphasis and blocks opened the model's cost."""
    price_bands(board, Rates(tolerance=prices.tolerance))
    for var in board.arcs.values():
        board.model.cost[var] = prices.block


def emphasis_value(season, prices, plan):
    """Return the same of a plan, by its own sums."""
    total = 0
    for index, quality in enumerate(season.qualities):
        ladder = np.round(np.linspace(0, 100, len(quality.bands)))
        for week in season.weeks:
            rung = plan.rungs[index][week.index]
            if rung is not None:
                miss = abs(ladder[rung] - season.emphasis[index][week.index]) - prices.tolerance
                total += round(max(0.0, float(miss))) * quality.weight
    return total + prices.block * len(plan.blocks())
