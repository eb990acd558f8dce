from made_seasons import assert_agrees, audit_excess, make_plan, make_season

from constraints.reentry import Reentry
from optimiser.rule import Waiver

BACK = Reentry(days_off=14, rung=2, volume=(50, 70), season_start=False)
# both qualities at full dose are 60 min a week; 20, 40 and 60 by dose


def _work(season, doses, starts, rungs):
    return make_plan(season, starts, [rungs, [0] * len(starts)], [doses, doses])


def test_reports_rungs_and_minutes_too_many_after_time_off():
    season = make_season(6, closed=(1, 2))
    plan = _work(season, [3, 0, 0, 3, 3, 3], [0, 3], [0, 3])

    # 30 and 42 min are allowed in the first weeks back
    assert audit_excess(BACK, plan, season) == {
        (3, "sprint", "rung", "rungs"): 2,
        (3, None, "volume", "minutes"): 30,
        (4, None, "volume", "minutes"): 18,
    }
    assert_agrees(BACK, plan, season)


def test_the_rung_counts_in_the_first_week_back_only():
    season = make_season(5, closed=(0, 1))
    plan = _work(season, [0, 0, 1, 1, 1], [2, 3], [1, 3])

    assert BACK.audit(plan, season) == []
    assert_agrees(BACK, plan, season)


def test_one_closed_week_is_not_enough_and_ends_the_climb_back():
    season = make_season(6, closed=(0, 1, 3))
    plan = _work(season, [0, 0, 1, 0, 3, 3], [2, 4], [0, 3])

    assert BACK.audit(plan, season) == []
    assert_agrees(BACK, plan, season)


def test_days_off_are_counted_in_whole_weeks():
    season = make_season(4, closed=(1,))
    plan = _work(season, [1, 0, 3, 1], [0, 2], [0, 0])
    week, more = (BACK.model_copy(update={"days_off": days}) for days in (7, 8))

    assert audit_excess(week, plan, season) == {(2, None, "volume", "minutes"): 30}
    assert more.audit(plan, season) == []
    assert_agrees(week, plan, season)
    assert_agrees(more, plan, season)


def test_the_first_week_of_a_season_may_count_as_a_return():
    rule = BACK.model_copy(update={"season_start": True})
    for closed, first in (((), 0), ((0,), 1)):
        season = make_season(3, closed=closed)
        plan = _work(season, [2, 2, 2], [first], [2])

        assert audit_excess(rule, plan, season) == {
            (first, "sprint", "rung", "rungs"): 1,
            (first, None, "volume", "minutes"): 10,
        }
        assert BACK.audit(plan, season) == []
        assert_agrees(rule, plan, season)
        assert_agrees(BACK, plan, season)


def test_a_season_of_one_week():
    season = make_season(1)
    rule = BACK.model_copy(update={"season_start": True})
    plan = _work(season, [1], [0], [1])

    assert rule.audit(plan, season) == []
    assert_agrees(rule, plan, season)


def test_waivers_of_rungs_go_by_quality_and_those_of_volume_by_week():
    season = make_season(4, closed=(0, 1))
    waive = (
        Waiver(quality="sprint", part="rung", by=1),
        Waiver(week=4, part="volume", by=5),
    )
    rule = BACK.model_copy(update={"waive": waive})
    plan = make_plan(season, [2], [[3], [3]], [[0, 0, 2, 3]] * 2)

    assert audit_excess(rule, plan, season) == {
        (2, "sprint", "rung", "rungs"): 1,
        (2, "power", "rung", "rungs"): 2,
        (2, None, "volume", "minutes"): 10,
        (3, None, "volume", "minutes"): 13,
    }
    assert_agrees(rule, plan, season)
