from random import Random

import pytest
from made_seasons import make_plan, make_season, random_plan, random_season

from constraints.exposure import Exposure
from constraints.progression import Progression
from optimiser.objective import TENTH, Prices, emphasis_value, readiness_value
from optimiser.why.terms import Terms, emphasis_terms, readiness_terms

PRICES = Prices()


@pytest.mark.parametrize("seed", range(12))
def test_terms_add_up_to_the_objectives(seed):
    rng = Random(seed)
    season = random_season(rng)
    plan = random_plan(rng, season)

    assert emphasis_terms(season, PRICES, plan, []).total == emphasis_value(season, PRICES, plan)
    assert readiness_terms(season, PRICES, plan, []).total == readiness_value(season, PRICES, plan)


@pytest.mark.parametrize("seed", range(4))
def test_differences_of_terms_add_up_to_the_difference_of_objectives(seed):
    rng = Random(seed)
    season = random_season(rng)
    old, new = random_plan(rng, season), random_plan(rng, season)
    terms = (emphasis_terms(season, PRICES, plan, []) for plan in (new, old))

    gap = next(terms).minus(next(terms))

    was, now = (emphasis_value(season, PRICES, plan) for plan in (old, new))
    assert gap.total == now - was
    assert all(gap.parts.values())


def test_rules_with_a_price_are_a_term_and_others_are_not():
    season = make_season(6)
    plan = make_plan(season, [0, 3], [[0, 3], [0, 0]], [[1] * 6, [1] * 6])
    rules = [Progression(price=7), Exposure()]

    terms = readiness_terms(season, PRICES, plan, rules)

    assert terms.parts["rule progression"] == 7 * 2 * TENTH
    assert "rule exposure" not in terms.parts
    assert terms.total == readiness_value(season, PRICES, plan) + 14 * TENTH


def test_a_term_that_is_new_or_gone_counts():
    assert Terms({"a": 3, "b": 1}).minus(Terms({"b": 1, "c": 2})).parts == {"a": 3, "c": -2}
