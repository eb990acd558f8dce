from random import Random

import pytest
from made_seasons import make_plan, make_season, random_plan, random_season

from constraints.exposure import Exposure
from constraints.progression import Progression
from optimiser.domain.rates import Rates
from optimiser.explain.why.terms import Terms, cost_terms
from optimiser.joint_model.cost import season_cost
from optimiser.response.readiness import units

RATES = Rates()


@pytest.mark.parametrize("seed", range(12))
def test_terms_add_up_to_the_season_cost(seed):
    rng = Random(seed)
    season = random_season(rng)
    plan = random_plan(rng, season)

    assert cost_terms(season, [], plan, RATES).total == season_cost(season, [], plan, RATES).total


@pytest.mark.parametrize("seed", range(4))
def test_differences_of_terms_add_up_to_the_difference_of_costs(seed):
    rng = Random(seed)
    season = random_season(rng)
    old, new = random_plan(rng, season), random_plan(rng, season)

    gap = cost_terms(season, [], new, RATES).minus(cost_terms(season, [], old, RATES))

    was, now = (season_cost(season, [], plan, RATES).total for plan in (old, new))
    assert gap.total == now - was
    assert all(gap.parts.values())


def test_rules_with_a_price_are_a_term_and_others_are_not():
    season = make_season(6)
    plan = make_plan(season, [0, 3], [[0, 3], [0, 0]], [[1] * 6, [1] * 6])

    terms = cost_terms(season, [Progression(price=7), Exposure()], plan, RATES)

    assert terms.parts["rules"] == 7 * 2 * units(RATES.rule)


def test_a_term_that_is_new_or_gone_counts():
    assert Terms({"a": 3, "b": 1}).minus(Terms({"b": 1, "c": 2})).parts == {"a": 3, "c": -2}
