import pytest
from made_seasons import (
    assert_agrees,
    audit_excess,
    can_hold,
    make_season,
    standing_plan,
)
from pydantic import ValidationError

from constraints.blocks import Blocks
from constraints.foundation import Foundation
from constraints.progression import Progression
from optimiser.rule import Waiver

ROW = Foundation(from_rung=3, weeks=2, within=2)
AMONG = Foundation(from_rung=3, weeks=2, within=4)


def test_reports_the_weeks_that_lack_below_an_upper_rung():
    season = make_season(6)
    plan = standing_plan(season, [0, 2, 3], [0, 1, 2])

    # rung 3 from week 4: one week at rung 2, then one there and one at rung 3
    assert audit_excess(ROW, plan, season) == {(3, "sprint", "", "weeks"): 1}
    assert_agrees(ROW, plan, season)


def test_two_weeks_at_the_rung_below_carry_an_upper_rung():
    season = make_season(6)
    plan = standing_plan(season, [0, 2, 4], [1, 2, 3])

    assert ROW.audit(plan, season) == []
    assert_agrees(ROW, plan, season)


def test_the_first_week_carries_lower_rungs_only():
    season = make_season(1)
    low, high = standing_plan(season, [0], [1]), standing_plan(season, [0], [2])

    assert ROW.audit(low, season) == []
    assert audit_excess(ROW, high, season) == {(0, "sprint", "", "weeks"): 2}
    assert_agrees(ROW, low, season)
    assert_agrees(ROW, high, season)


def test_weeks_need_not_come_in_a_row_within_a_wider_span():
    season = make_season(6)
    plan = standing_plan(season, [0, 1, 3, 5], [1, 0, 1, 2])
    gap = standing_plan(season, [0, 1, 4, 5], [1, 0, 1, 2])

    assert AMONG.audit(plan, season) == []
    assert audit_excess(AMONG, gap, season) == {(5, "sprint", "", "weeks"): 1}
    assert_agrees(AMONG, plan, season)
    assert_agrees(AMONG, gap, season)


def test_closed_weeks_are_passed_over():
    season = make_season(6, closed=(2, 3))
    plan = standing_plan(season, [0, 4], [1, 2])

    assert ROW.audit(plan, season) == []
    assert_agrees(ROW, plan, season)


def test_a_waiver_lowers_what_is_needed_of_one_quality():
    season = make_season(4)
    rule = ROW.model_copy(update={"waive": (Waiver(week=1, quality="sprint", by=1),)})
    plan = standing_plan(season, [0], [2])

    assert audit_excess(rule, plan, season) == {
        (0, "sprint", "", "weeks"): 1,
        (1, "sprint", "", "weeks"): 1,
    }
    assert_agrees(rule, plan, season)


def test_small_steps_and_long_blocks_do_not_hide_a_climb_across_closed_weeks():
    season = make_season(7, closed=(3,))
    rules = [Blocks(shortest=3, longest=3), Progression(up=1), Foundation(weeks=4, within=4)]
    plan = standing_plan(season, [0, 4], [1, 2])

    assert [len(rule.audit(plan, season)) for rule in rules] == [0, 0, 1]
    assert not can_hold(rules, plan, season)
    assert can_hold([*rules[:2], Foundation(weeks=3, within=3)], plan, season)


def test_more_weeks_than_they_are_counted_among_are_refused():
    with pytest.raises(ValidationError, match="within must be at least weeks"):
        Foundation(weeks=4, within=3)
