import pytest
from batch_cases import small_season
from made_seasons import make_plan, make_season

from constraints.load import load_rules
from optimiser.batch.numbers import largest_ramp, planned_result, week_loads, weeks_at_caps
from optimiser.joint_model.solve import solve_season
from optimiser.review.audit import keeps

RULES = load_rules({})
SEASON = small_season(weeks=10)


@pytest.fixture(scope="module")
def plan():
    return solve_season(SEASON, RULES).plan


def test_the_ramp_is_against_the_mean_of_the_four_open_weeks_before():
    season = make_season(7, closed=[2])

    assert largest_ramp(season, [100, 200, 0, 300, 200, 260, 208]) == 30.0


@pytest.mark.parametrize(("loads", "ramp"), [([0, 0, 0, 0, 5], None), ([9, 9, 9, 9], None)])
def test_there_is_no_ramp_without_four_weeks_of_load(loads, ramp):
    assert largest_ramp(make_season(len(loads)), loads) is ramp


def test_a_weeks_load_counts_matches_and_practice_too():
    season = make_season(2, practice=[700, 0])
    plan = make_plan(season, [0], [[0], [0]], [[0, 3], [0, 0]])
    sprint = season.qualities[0].doses.full

    assert week_loads(season, plan) == [700, round(sprint.minutes * sprint.rpe)]


def test_a_week_is_at_its_caps_where_one_more_session_is_one_too_many(plan):
    held = weeks_at_caps(SEASON, plan, RULES)

    for week in SEASON.weeks:
        at = week.index
        more = [
            plan.model_copy(update={place: (*row[:at], row[at] + 1, *row[at + 1 :])})
            for place, row in (("field", plan.field), ("gym", plan.gym))
        ]
        too_many = any(
            breach.unit == "sessions"
            for rule in RULES
            if rule.name in ("session_caps", "congestion")
            for fuller in more
            for breach in rule.audit(fuller, SEASON)
        )
        assert (at in held) == too_many


def test_the_row_counts_what_the_rules_mark(plan):
    found = planned_result(SEASON, plan, RULES, status="proven", gap=0.0, seconds=1.23456)
    marks = {rule.name: rule.marks(plan, SEASON) for rule in RULES}

    assert (found.deloads, found.tapers) == (len(marks["deload"]), len(marks["taper"]))
    assert found.peak_load == max(week_loads(SEASON, plan))
    assert 0 < found.match <= 100
    assert found.seconds == 1.235


def test_a_plan_that_breaks_a_rule_is_legal_only_if_the_rule_has_a_price(plan):
    tighter = {"in_season": {"field": 0, "gym": 0}}

    assert keeps(SEASON, RULES, plan)
    assert not keeps(SEASON, load_rules({"session_caps": tighter}), plan)
    assert keeps(SEASON, load_rules({"session_caps": {**tighter, "price": 10}}), plan)
