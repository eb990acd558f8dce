from made_seasons import (
    assert_agrees,
    audit_excess,
    make_plan,
    make_season,
    standing_plan,
    working_plan,
)

from constraints.progression import Progression
from optimiser.rule import Waiver

STEPS = Progression(up=1, down=1)
VOLUME = Progression(volume_rise=50, allowance=5)
FOUR = make_season(4)


def test_reports_the_week_and_the_rungs_too_many_of_a_climb():
    plan = standing_plan(FOUR, [0, 2], [0, 3])

    assert audit_excess(STEPS, plan, FOUR) == {
        (2, "sprint", "up", "rungs"): 2,
    }
    assert_agrees(STEPS, plan, FOUR)


def test_reports_a_fall():
    plan = standing_plan(FOUR, [0, 1], [3, 0])

    assert [(b.week, b.part, b.excess) for b in STEPS.audit(plan, FOUR)] == [(1, "down", 2)]
    assert_agrees(STEPS, plan, FOUR)


def test_steps_of_one_rung_are_allowed_and_so_is_any_first_rung():
    plan = standing_plan(FOUR, [0, 1, 2], [3, 2, 3])

    assert STEPS.audit(plan, FOUR) == []
    assert_agrees(STEPS, plan, FOUR)


def test_across_closed_weeks_a_climb_counts_and_a_fall_does_not():
    season = make_season(6, closed=(1, 2, 4))
    plan = standing_plan(season, [0, 3, 5], [0, 3, 0])

    assert [(b.week, b.part, b.excess) for b in STEPS.audit(plan, season)] == [(3, "up", 2)]
    assert_agrees(STEPS, plan, season)


def test_two_weeks_may_rise_over_the_two_before_by_the_share_and_the_allowance():
    # 20 min before: 30 + 5 are allowed, 40 and 60 come
    kept, passed = working_plan(FOUR, [1, 1, 2, 1]), working_plan(FOUR, [1, 1, 3, 2])

    assert VOLUME.audit(kept, FOUR) == []
    assert [(b.week, b.part, b.excess) for b in VOLUME.audit(passed, FOUR)] == [(3, "volume", 15)]
    assert_agrees(VOLUME, kept, FOUR)
    assert_agrees(VOLUME, passed, FOUR)


def test_a_part_of_a_minute_counts_as_one():
    rule = Progression(volume_rise=33, allowance=0)
    plan = working_plan(FOUR, [1, 1, 1, 2])

    # 30 min after 20: 26.6 are allowed
    assert [b.excess for b in rule.audit(plan, FOUR)] == [4]
    assert_agrees(rule, plan, FOUR)


def test_volume_is_not_compared_across_a_closed_week():
    season = make_season(6, closed=(2,))
    plan = working_plan(season, [0, 0, 0, 3, 3, 3], [0, 3])

    assert VOLUME.audit(plan, season) == []
    assert_agrees(VOLUME, plan, season)


def test_three_weeks_have_nothing_to_compare():
    season = make_season(3)
    plan = working_plan(season, [0, 0, 3])

    assert VOLUME.audit(plan, season) == []
    assert_agrees(VOLUME, plan, season)


def test_a_waiver_for_one_quality_leaves_the_other_alone():
    rule = STEPS.model_copy(update={"waive": (Waiver(week=3, quality="power", part="up"),)})
    plan = make_plan(FOUR, [0, 2], [[0, 2], [0, 2]], [[1] * 4] * 2)

    assert [(b.quality, b.excess) for b in rule.audit(plan, FOUR)] == [("sprint", 1)]
    assert_agrees(rule, plan, FOUR)
