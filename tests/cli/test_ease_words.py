from pathlib import Path

import pytest

from cli.files.scenario_file import load_scenario
from cli.render.ease_words import EASINGS, ease_said
from constraints import CATALOGUE
from constraints.load import load_rules
from optimiser.explain.demand import demands_of
from optimiser.explain.repair import Give
from optimiser.explain.soft_board import soft_board

#: Two peaks too near each other, a crowded week, a week of primers only, a break, pins.
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
[rules.spacing]
rest_days = ["sunday", "friday"]
[rules.pin]
choices = [ { week = 2, quality = "sprint", band = 1 },
            { week = 3, quality = "power", dose = "full" },
            { week = 18, quality = "power", dose = "full" } ]
[rules.revisit]
clear = 4
[rules.phase_load]
percent = 60
[rules.taper]
same_peak = 2
"""


@pytest.fixture(scope="module")
def told(plain_plan):
    """What every demand says when it gives way by one."""
    loaded = load_scenario(SEASON, Path("everything.toml"))
    season, rules = loaded.season, load_rules(loaded.scenario.rules, loaded.season)
    board, _ = soft_board(season, rules)
    plan = plain_plan(season)
    demands = demands_of(board.model, rules)
    return {key: ease_said(season, plan, Give(demand, 1)) for key, demand in demands.items()}


def test_every_rule_but_rest_says_something(told):
    assert {key.rule for key in told} == set(CATALOGUE) - {"rest"}


def test_no_demand_falls_back_to_plain_words(told):
    plain = {(key.rule, key.part) for key, said in told.items() if "give way by" in said.text}

    assert plain == set()


def test_every_wording_is_met(told):
    met = {(key.rule, key.part) for key in told} | {(key.rule, "") for key in told}

    assert set(EASINGS) - met == set()


def test_a_limit_is_told_as_it_would_be_and_as_it_is(told):
    limits = {said.text for said in told.values() if " instead of " in said.text}

    assert len(limits) > 20
    for text in limits:
        new, old = text.split(" instead of ")
        assert abs(int(new.split()[-1]) - int(old.split()[0])) == 1, text
