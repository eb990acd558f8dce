"""Whatever a scenario says, it is planned for or refused with reasons.

SEASONWRIGHT_CASES=2000 in the environment tries that many; the usual number keeps the suite quick.
"""

import os

import pytest
from hypothesis import HealthCheck, given, settings
from made_scenarios import scenarios
from rules_of_thumb import greedy
from spoiled import refusal

from cli.files.scenario_file import load_scenario
from cli.files.scenario_rules import read_rules
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import make_board, solve_season
from optimiser.review.audit import audit_plan

CASES = int(os.environ.get("SEASONWRIGHT_CASES", "60"))
QUICK = Settings(quick=True, seconds=20)
MADE = settings(
    max_examples=CASES,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
FEW = settings(MADE, max_examples=max(15, CASES // 10))


@pytest.fixture
def read(tmp_path):
    """Read a scenario's text; return its season and rules, or what is said against it."""

    def reading(text):
        path = tmp_path / "made.toml"
        path.write_text(text, encoding="utf-8")
        held = []

        def whole(path):
            loaded = load_scenario(text, path)
            held.extend((loaded, read_rules(loaded)))

        told = refusal(whole, path)
        if told is not None:
            assert str(path) in told
            assert "\n" not in told
            return None
        return held

    return reading


@MADE
@given(text=scenarios() | scenarios(odd=True))
def test_a_scenario_has_a_board_and_can_be_audited_or_is_refused_in_one_line(read, text):
    held = read(text)
    if held is None:
        return
    loaded, rules = held

    model = make_board(loaded.season, rules).model
    found = audit_plan(loaded.season, greedy(loaded.season), rules)

    assert all(low <= high for low, high in zip(model.lower, model.upper, strict=True))
    assert all(breach.excess > 0 and breach.words for breach in found)


@FEW
@given(text=scenarios(longest=10))
def test_a_short_season_is_planned_within_its_rules_or_has_none(read, text):
    held = read(text)
    if held is None:
        return
    loaded, rules = held

    outcome = solve_season(loaded.season, rules, QUICK)

    assert (outcome.plan is not None) == (outcome.status == "planned")
    if outcome.plan is not None:
        broken = audit_plan(loaded.season, outcome.plan, rules)
        priced = {rule.name for rule in rules if rule.price is not None}
        assert {breach.rule for breach in broken} <= priced
