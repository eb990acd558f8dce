from made_seasons import assert_agrees, audit_excess, make_season, match_on, working_plan

from constraints.load_ramp import LoadRamp
from optimiser.rule import Waiver

RAMP = LoadRamp(percent=50, allowance=20, floor=0)
# doses of one quality: 60, 120 and 180 AU; a match is 480


def test_reports_the_load_above_the_recent_mean():
    season = make_season(3)
    plan = working_plan(season, [1, 1, 3])

    # 60 * 1.5 + 20 are allowed
    assert audit_excess(RAMP, plan, season) == {
        (2, None, "", "AU"): 70,
    }
    assert_agrees(RAMP, plan, season)


def test_the_first_week_has_nothing_to_be_measured_against():
    season = make_season(1)
    plan = working_plan(season, [3])

    assert RAMP.audit(plan, season) == []
    assert_agrees(RAMP, plan, season)


def test_only_the_last_four_weeks_count():
    season = make_season(6)
    plan = working_plan(season, [3, 1, 1, 1, 1, 2])

    assert [(b.week, b.excess) for b in RAMP.audit(plan, season)] == [(5, 10)]
    assert_agrees(RAMP, plan, season)


def test_closed_weeks_are_passed_over():
    season = make_season(6, closed=(1, 2, 4))
    plan = working_plan(season, [1, 0, 0, 1, 0, 2], [0, 3, 5])

    assert [(b.week, b.excess) for b in RAMP.audit(plan, season)] == [(5, 10)]
    assert_agrees(RAMP, plan, season)


def test_a_part_of_a_unit_counts_as_one():
    season = make_season(4)
    rule = LoadRamp(percent=7, allowance=0, floor=0)
    plan = working_plan(season, [1, 1, 2, 2])

    # third week: 120 against 64.2; fourth: 120 against 85.6
    assert [(b.week, b.excess) for b in rule.audit(plan, season)] == [(2, 56), (3, 35)]
    assert_agrees(rule, plan, season)


def test_matches_and_practice_count():
    season = make_season(3, fixtures=[match_on(2)], practice=[600, 600, 600])
    plan = working_plan(season, [1, 1, 1])

    # 1140 AU against 660 * 1.5 + 20, and the fixed 1080 fit in 920 with a credit of 160
    assert RAMP.audit(plan, season) == []
    assert_agrees(RAMP, plan, season)


def test_own_work_up_to_the_floor_is_allowed_whatever_is_fixed():
    season = make_season(2, fixtures=[match_on(1)])
    rule = LoadRamp(percent=0, allowance=0, floor=100)
    plan = working_plan(season, [1, 3])

    # fixed 480 after 0: a credit of 580 besides last week's own 60; 660 come
    assert [(b.week, b.excess) for b in rule.audit(plan, season)] == [(1, 20)]
    assert_agrees(rule, plan, season)


def test_a_waiver_gives_load_in_its_week():
    season = make_season(4)
    rule = RAMP.model_copy(update={"waive": (Waiver(week=3, by=30),)})
    plan = working_plan(season, [1, 1, 3, 3])

    assert [(b.week, b.excess) for b in rule.audit(plan, season)] == [(2, 40), (3, 10)]
    assert_agrees(rule, plan, season)
