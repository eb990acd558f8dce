from random import Random

import pytest
from made_seasons import audit_price, random_plan, random_season
from rule_samples import SAMPLES

from constraints import CATALOGUE
from optimiser.rule import Rule

#: Rules that have a step, but not from their defaults, which ask nothing.
ASKS_NOTHING = {"phase_load"}
#: Rules whose step has no number of its own.
UNCOUNTED = {"budget", "congestion", "exposure"}
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


@pytest.mark.parametrize("name", STEPPING)
def test_a_step_is_said_without_the_names_of_parameters(name):
    parameters = {each for each in CATALOGUE[name].model_fields if "_" in each}
    for rule in SAMPLES[name]:
        looser = rule.loosened()
        if looser is None:
            continue
        words = rule.step_words(looser)
        assert not any(each in words for each in parameters)
        assert words != Rule.step_words(rule, looser)
        assert looser.step_words(looser.loosened() or looser) != words or name in UNCOUNTED


@pytest.mark.parametrize("rule", [rule for rules in SAMPLES.values() for rule in rules])
def test_what_cannot_be_looser_says_what_doing_without_it_means(rule):
    assert rule.loosened() is not None or rule.name in STEPPING or rule.dropped
