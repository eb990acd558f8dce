"""More readiness at one match: what it takes, and how far it can get."""

import pytest

from cli.files.scenario_file import read_scenario
from cli.files.scenario_rules import read_rules
from optimiser.change.near import solve_near
from optimiser.explain.why.lifted import Lifted, reach
from optimiser.joint_model.solve import solve_season
from optimiser.review.audit import audit_plan
from optimiser.review.score import readiness

SHORT = """
name = "Brookmere Autumn"
first_monday = 2026-08-31
weeks = 6
fixtures = [ { date = 2026-10-10, opponent = "Ashby Vale", priority = "high" } ]
"""
LAST = 5


@pytest.fixture(scope="module")
def short(tmp_path_factory, quick):
    """A season of six weeks, its rules and a plan."""
    path = tmp_path_factory.mktemp("lifted") / "short.toml"
    path.write_text(SHORT)
    loaded = read_scenario(path)
    rules = read_rules(loaded)
    return loaded.season, rules, solve_season(loaded.season, rules, quick).plan


@pytest.fixture(scope="module")
def farthest(short, quick):
    return reach(*short[:2], short[2], LAST, quick)


def test_the_readiest_plan_keeps_the_rules_and_none_is_above_the_ceiling(short, farthest):
    season, rules, plan = short

    assert audit_plan(season, farthest.plan, rules) == []
    assert readiness(season, plan)[0][LAST] < farthest.most <= farthest.ceiling + 1e-6
    assert farthest.most == pytest.approx(readiness(season, farthest.plan)[0][LAST])
    assert farthest.ceiling < 150


def test_a_plan_that_was_asked_for_more_has_it(short, farthest, quick):
    season, rules, plan = short
    now = readiness(season, plan)[0][LAST]
    asked = Lifted(week=LAST, level=round((now + farthest.most) / 2, 1), match="the final")

    near = solve_near(season, [*rules, asked], plan, quick, start=farthest.plan)

    assert audit_plan(season, plan, [asked])
    assert near.plan is not None
    assert audit_plan(season, near.plan, [*rules, asked]) == []
    assert readiness(season, near.plan)[0][LAST] >= asked.level - 0.01


def test_what_is_above_the_ceiling_has_no_plan(short, farthest, quick):
    season, rules, plan = short
    asked = Lifted(week=LAST, level=farthest.ceiling + 1, match="the final")

    assert solve_near(season, [*rules, asked], plan, quick).status == "clash"
