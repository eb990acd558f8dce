from made_seasons import (
    assert_agrees,
    audit_excess,
    make_plan,
    make_quality,
    make_season,
    match_on,
)

from constraints.congestion import Congestion
from optimiser.rule import Waiver

CROWD = Congestion(sessions=(4, 3, 2, 1), hard=(2, 1, 0, 0), free_days=10, between=(5,), pieces=2)
DAYS = Congestion(
    sessions=(9, 9, 9, 9), hard=(9, 9, 9, 9), free_days=7, between=(0, 0, 1, 1, 2, 3, 3)
)


def _plan(season, doses, field=None, gym=None):
    plan = make_plan(season, [0], [[0]] * len(season.qualities), doses)
    update = {"field": tuple(field or plan.field), "gym": tuple(gym or plan.gym)}
    return plan.model_copy(update=update)


def test_reports_sessions_above_what_the_matches_leave():
    season = make_season(3, fixtures=[match_on(0), match_on(1, 1), match_on(1, 5)])
    plan = _plan(season, [[3, 3, 3], [2, 2, 0]], field=[2, 2, 2], gym=[2, 2, 0])

    # three days before and after a match count it: week 3 has one match near, or none
    assert audit_excess(CROWD, plan, season) == {
        (0, None, "sessions", "sessions"): 1,
        (1, None, "sessions", "sessions"): 2,
        (1, None, "hard", "pieces"): 2,
    }
    assert_agrees(CROWD, plan, season)


def test_matches_count_for_the_three_days_before_and_after():
    season = make_season(3, fixtures=[match_on(0, 0), match_on(0, 6), match_on(2, 0)])
    rule = CROWD.model_copy(update={"sessions": (0, 1, 2, 3)})
    plan = _plan(season, [[3, 3, 3], [3, 3, 3]], field=[2, 2, 2], gym=[2, 2, 2])

    # week 2: Sunday's match up to Wednesday, that of the next Monday from Friday on
    assert [(b.week, b.excess) for b in rule.audit(plan, season) if b.part == "sessions"] == [
        (0, 3),
        (1, 3),
        (2, 3),
    ]
    assert_agrees(rule, plan, season)


def test_each_hard_session_has_room_for_so_many_leg_qualities_above_a_touch():
    keys = [("a", "gym"), ("b", "gym"), ("c", "gym"), ("d", "field")]
    season = make_season(4, qualities=[make_quality(*each) for each in keys])
    doses = [[2, 2, 3, 1], [3, 2, 1, 1], [2, 0, 1, 1], [2, 2, 1, 1]]
    plan = _plan(season, doses)
    rule = CROWD.model_copy(update={"hard": (1, 1, 1, 1)})

    assert audit_excess(rule, plan, season) == {
        (0, None, "hard", "pieces"): 2,
        (1, None, "hard", "pieces"): 1,
    }
    assert_agrees(rule, plan, season)


def test_work_that_spares_the_legs_is_never_hard():
    press = make_quality("press", "gym", lower_body=False)
    season = make_season(1, qualities=[press, make_quality("sprint", "field")])
    rule = CROWD.model_copy(update={"hard": (0, 0, 0, 0)})
    plan = _plan(season, [[3], [1]])

    assert rule.audit(plan, season) == []
    assert_agrees(rule, plan, season)


def test_days_between_matches_bound_the_week():
    # Saturday, Tuesday, Saturday: 2 days for 1 session, then 3 days for 1; Sunday is a free day
    season = make_season(3, fixtures=[match_on(0), match_on(1, 1), match_on(1, 5)])
    plan = _plan(season, [[3, 3, 3], [3, 3, 3]], field=[2, 2, 2], gym=[2, 2, 2])
    crowded = make_season(2, fixtures=[match_on(0, day) for day in (0, 2, 4, 6)])
    full = _plan(crowded, [[2, 2], [2, 2]], field=[2, 1], gym=[1, 1])

    # week 1: five free days and half of Sunday-Monday; week 2: 0.5 + 1 + 1; week 3: seven
    assert [(b.week, b.excess) for b in DAYS.audit(plan, season)] == [(1, 1)]
    assert [(b.week, b.excess) for b in DAYS.audit(full, crowded)] == [(0, 3)]
    assert_agrees(DAYS, plan, season)
    assert_agrees(DAYS, full, crowded)


def test_a_crowded_end_does_not_spill_into_free_days():
    days = [(0, 4), (0, 6), (1, 0), (1, 5)]
    season = make_season(2, fixtures=[match_on(week, day) for week, day in days])
    three = _plan(season, [[0, 2], [0, 2]], field=[0, 2], gym=[0, 1])

    # Monday's three matches in four days leave Tuesday to Friday before the next one
    assert [b.part for b in Congestion().audit(three, season)] == ["sessions"]
    assert audit_excess(Congestion(), three, season) == {(1, None, "sessions", "sessions"): 1}
    assert_agrees(Congestion(), three, season)


def test_short_sessions_stay_where_a_day_is_free():
    every_other = [match_on(week, day) for week in (0, 1) for day in (1, 3, 5)]
    season = make_season(2, fixtures=every_other)
    two, hard = _plan(season, [[1, 1], [1, 1]]), _plan(season, [[2, 1], [1, 1]])

    assert Congestion().audit(two, season) == []
    assert [(b.week, b.part) for b in Congestion(pieces=1).audit(hard, season)] == [(0, "hard")]
    assert_agrees(Congestion(), two, season)


def test_two_matches_on_one_day_are_no_pair():
    season = make_season(1, fixtures=[match_on(0, 2), match_on(0, 2)])
    plan = _plan(season, [[3], [3]], field=[2], gym=[2])

    assert DAYS.audit(plan, season) == []
    assert [b.part for b in CROWD.audit(plan, season)] == ["sessions", "hard"]
    assert_agrees(DAYS, plan, season)
    assert_agrees(CROWD, plan, season)


def test_a_closed_week_is_passed_over():
    season = make_season(2, fixtures=[match_on(0, day) for day in (0, 3, 6)], closed=(0,))
    plan = make_plan(season, [1], [[0], [0]], [[0, 1], [0, 0]])

    assert CROWD.audit(plan, season) == []
    assert_agrees(CROWD, plan, season)


def test_a_waiver_of_hard_sessions_leaves_the_count_of_sessions():
    season = make_season(1, fixtures=[match_on(0, 0), match_on(0, 3), match_on(0, 6)])
    rule = CROWD.model_copy(update={"waive": (Waiver(week=1, part="hard", by=2),)})
    plan = _plan(season, [[3], [3]], field=[2])

    assert [(b.part, b.excess) for b in rule.audit(plan, season)] == [("sessions", 1)]
    assert_agrees(rule, plan, season)
