"""Rules audited by hand from their printed words: the numbers of the sentence, and plain sums."""

import re
from random import Random

import pytest
from made_seasons import random_plan, random_season

from constraints.load_ramp import LoadRamp
from constraints.progression import Progression
from optimiser.review.score import training_load, training_minutes


def numbers(rule):
    return [int(number) for number in re.findall(r"\d+", rule.words())]


@pytest.mark.parametrize("seed", range(40))
def test_a_hand_audit_of_the_load_ramp_finds_what_the_rule_finds(seed):
    rng = Random(seed)
    season = random_season(rng)
    plan = random_plan(rng, season)
    rule = LoadRamp(
        percent=rng.randint(0, 40), allowance=rng.randint(0, 300), floor=rng.randint(0, 300)
    )
    percent, allowance, floor, *again = numbers(rule)
    assert again == [percent, allowance, percent, floor]

    over = {}
    opened = [week for week in season.weeks if not week.closed]
    for place, week in enumerate(opened[1:], 1):
        past = opened[max(0, place - 4) : place]
        own = [training_load(season, plan, each.index) for each in past]
        given = [each.fixed_load for each in past]
        here = training_load(season, plan, week.index)
        usual = (1 + percent / 100) * sum(given) / len(past) + allowance
        if usual - week.fixed_load < floor:
            most = (1 + percent / 100) * sum(own) / len(past) + floor
            high = here - most
        else:
            most = (1 + percent / 100) * (sum(own) + sum(given)) / len(past) + allowance
            high = here + week.fixed_load - most
        over |= {week.index: high}

    found = {breach.week for breach in rule.audit(plan, season)}
    # less than one AU over may be let pass: the rule counts in whole ones
    assert {week for week, high in over.items() if high >= 1} <= found
    assert found <= {week for week, high in over.items() if high > 0}


@pytest.mark.parametrize("seed", range(40))
def test_a_hand_audit_of_two_weeks_volume_finds_what_the_rule_finds(seed):
    rng = Random(seed)
    season = random_season(rng)
    plan = random_plan(rng, season)
    rule = Progression(volume_rise=rng.randint(0, 60), allowance=rng.randint(0, 60), missed=0)
    _, _, percent, allowance, _ = numbers(rule)

    minutes = [training_minutes(season, plan, week.index) for week in season.weeks]
    over = {
        week
        for week in range(3, len(minutes))
        if not any(season.weeks[each].closed for each in range(week - 3, week + 1))
        and 100 * (minutes[week] + minutes[week - 1] - allowance)
        > (100 + percent) * (minutes[week - 2] + minutes[week - 3])
    }

    assert {b.week for b in rule.audit(plan, season) if b.part == "volume"} == over
