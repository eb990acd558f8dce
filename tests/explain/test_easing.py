"""What a repair says: in the words of the rule, from numbers that are data."""

from dataclasses import replace
from pathlib import Path

import pytest

from cli.files.scenario_file import load_scenario
from constraints import CATALOGUE
from constraints.load import load_rules
from optimiser.explain.demand import demands_of
from optimiser.explain.easing import eased
from optimiser.explain.soft_board import soft_board

#: Two peaks too near each other, a crowded week, a week of primers only, two breaks, pins.
SEASON = """
name = "Everything at once"
first_monday = 2026-08-31
weeks = 44
fixtures = [
    { date = 2026-10-17 }, { date = 2026-10-24 }, { date = 2026-10-27 }, { date = 2026-10-29 },
    { date = 2026-12-01 }, { date = 2026-12-03 }, { date = 2026-12-05 },
    { date = 2027-03-02 }, { date = 2027-03-04 }, { date = 2027-03-06 }, { date = 2027-03-09 },
    { date = 2027-05-01, priority = "high" }, { date = 2027-05-22, priority = "high" },
    { date = 2027-06-19, priority = "medium" },
]
[qualities.general_strength]
lower_body = false
[[breaks]]
kind = "rest"
first = 2026-12-21
last = 2027-01-10
[[breaks]]
kind = "rest"
first = 2027-02-10
last = 2027-02-13
[rules.spacing]
rest_days = ["sunday", "friday"]
[rules.pin]
choices = [ { week = 2, quality = "sprint", band = 1 },
            { week = 3, quality = "power", dose = "full" },
            { week = 18, quality = "power", dose = "full" } ]
[rules.blocks]
begin = [6]
go_on = [8]
[rules.revisit]
clear = 4
[rules.phase_load]
percent = 60
[rules.taper]
same_peak = 2
"""


@pytest.fixture(scope="module")
def demanded(plain_plan):
    """A season that every rule says something about: its plan, rules by name and demands."""
    loaded = load_scenario(SEASON, Path("everything.toml"))
    tables = {**{name: {} for name in CATALOGUE}, **loaded.scenario.rules}
    season, rules = loaded.season, load_rules(tables, loaded.season)
    board, _ = soft_board(season, rules)
    named = {rule.name: rule for rule in rules}
    return season, plain_plan(season), named, demands_of(board.model, rules)


@pytest.fixture(scope="module")
def told(demanded):
    """What every demand says when it gives way by one."""
    season, plan, rules, demands = demanded
    return {
        key: str(eased(rules[key.rule], demand, 1, season, plan)) for key, demand in demands.items()
    }


def test_every_rule_says_something(told):
    assert {key.rule for key in told} == set(CATALOGUE)


def test_no_demand_falls_back_to_plain_words(told):
    plain = {(key.rule, key.part) for key, said in told.items() if "give way by" in said}

    assert plain == set()


def test_every_wording_is_met(told):
    met = {(key.rule, key.part) for key in told} | {(key.rule, "") for key in told}
    worded = {(name, part) for name, rule in CATALOGUE.items() for part in rule.eases}

    assert worded - met == set()


def test_a_limit_is_told_as_it_would_be_and_as_it_is(told):
    limits = {said for said in told.values() if " instead of " in said}

    assert len(limits) > 20
    for text in limits:
        new, old = text.split(" instead of ")
        assert abs(int(new.split()[-1]) - int(old.split()[0])) == 1, text


def test_other_words_for_a_limit_leave_its_repair_as_it_is(demanded, told):
    season, plan, rules, demands = demanded
    changed = 0

    for key, demand in demands.items():
        form = demand.says.form.replace("at most", "no more than").replace(" in ", " during ")
        changed += form != demand.says.form
        tags = [replace(tag, says=replace(tag.says, form=form)) for tag in demand.tags]
        other = replace(demand, tags=tuple(tags))
        assert str(eased(rules[key.rule], other, 1, season, plan)) == told[key]

    assert changed > 100
