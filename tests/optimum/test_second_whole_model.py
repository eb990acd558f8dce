"""The best season of the board is that of a second model, which shares no code with it."""

from random import Random

import pytest
from same_rules import rules_of
from test_second_model import random_limits
from tiny_seasons import tiny_season
from whole_by_week import least_season

from optimiser.domain.rates import Rates
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import solve_season

PROVE = Settings().to_the_end()


@pytest.mark.parametrize("number", range(12))
def test_the_proven_season_costs_what_a_second_model_says(number):
    rng = Random(700 + number)
    season = tiny_season(rng, rng.randint(10, 13), bands=rng.randint(3, 4), closed=2)
    limits = random_limits(rng)

    found = solve_season(season, rules_of(limits), PROVE)

    other = least_season(season, limits, Rates())
    assert (found.status == "clash") == (other is None)
    if other is not None:
        assert found.verdict.status == "proven"
        assert found.verdict.cost == pytest.approx(other, rel=1e-4, abs=1)
