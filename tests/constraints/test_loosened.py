from random import Random

import pytest
from made_seasons import audit_price, random_plan, random_season
from rule_samples import SAMPLES

from constraints import CATALOGUE
from optimiser.rule import Rule

#: Rules that have a step, but not from their defaults, which ask nothing.
ASKS_NOTHING = {"phase_load"}
STEPPING = sorted(name for name, rule in CATALOGUE.items() if rule.loosened is not Rule.loosened)
STEPS = [(name, at) for name, rules in SAMPLES.items() for at in range(len(rules))]


@pytest.mark.parametrize(("name", "at"), STEPS)
def test_a_looser_rule_finds_no_more_wrong_with_any_plan(name, at):
    # how far a rule yields depends on what the calendar leaves of it, so both stand as they are
    rule = SAMPLES[name][at].unyielding() or SAMPLES[name][at]
    looser = rule.loosened()
    if looser is None:
        assert name not in STEPPING or name in ASKS_NOTHING or rule != CATALOGUE[name]()
        return

    for seed in range(12):
        rng = Random(seed)
        season = random_season(rng, long=name == "revisit")
        plan = random_plan(rng, season)
        assert audit_price(looser, plan, season) <= audit_price(rule, plan, season), seed


@pytest.mark.parametrize("name", sorted(set(STEPPING) - ASKS_NOTHING))
def test_every_rule_with_a_number_has_a_step_from_its_defaults(name):
    rule = CATALOGUE[name]()

    looser = rule.loosened()

    assert looser is not None
    assert looser != rule
    assert type(rule).model_validate(looser.model_dump()) == looser


@pytest.mark.parametrize("name", STEPPING)
def test_steps_come_to_an_end_or_stay_inside_the_limits(name):
    rule = CATALOGUE[name]()

    for _ in range(40):
        looser = rule.loosened()
        if looser is None:
            return
        assert type(rule).model_validate(looser.model_dump()) == looser
        rule = looser
