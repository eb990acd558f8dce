"""Stage 1's optimum is that of a second model, written from the mathematics on its own."""

from random import Random

import pytest
from bands_alone import Prices, price_emphasis
from same_rules import rules_of
from tiny_seasons import tiny_season
from week_by_week import Limits, least_emphasis

from optimiser.engine.cp_sat_search import Effort, minimise
from optimiser.joint_model.solve import make_board

PRICES = Prices(block=30)


def random_limits(rng):
    shortest = rng.randint(2, 3)
    weeks = rng.randint(2, 3)
    return Limits(
        shortest=shortest,
        longest=rng.randint(shortest + 2, 6),
        up=rng.randint(1, 2),
        down=rng.randint(1, 2),
        reentry_rung=rng.randint(1, 2),
        days_off=rng.choice((7, 14)),
        from_rung=rng.randint(2, 4),
        foundation_weeks=weeks,
        within=rng.randint(weeks, 5),
        keep_bands=rng.randint(0, 4),
        gap=rng.randint(1, 2),
        ceiling=rng.choice((30, 60, 100)),
    )


@pytest.mark.parametrize("number", range(30))
def test_stage_one_equals_a_second_model(number):
    rng = Random(500 + number)
    season = tiny_season(
        rng, rng.randint(18, 26), bands=rng.randint(3, 5), closed=2, ladders=rng.randint(2, 4)
    )
    limits = random_limits(rng)

    board = make_board(season, rules_of(limits))
    price_emphasis(board, PRICES)
    found = minimise(board.model, Effort(deterministic=30))

    other = least_emphasis(season, limits, PRICES.block, PRICES.tolerance)
    assert found.status == ("infeasible" if other is None else "optimal")
    assert found.objective == (None if other is None else pytest.approx(other, abs=1e-4))
