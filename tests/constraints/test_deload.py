from made_seasons import assert_agrees, audit_excess, make_plan, make_season, match_on

from constraints.deload import Deload
from optimiser.domain.fixture import Priority
from optimiser.rule import Waiver

FIRST = Deload(where="first", percent=50, allowance=5, of_full=100, sessions=2)
LAST = Deload(where="last", percent=50, allowance=5, of_full=100, sessions=0)
THIRD = Deload(where="every", every=3, percent=50, allowance=0, of_full=100, sessions=1)


def _work(season, starts, doses):
    """Train both qualities alike; one field and one gym session in a week with work."""
    return make_plan(season, starts, [[0] * len(starts)] * 2, [doses, doses])


def test_reports_the_minutes_and_the_sessions_of_a_deload_week():
    season = make_season(4)
    plan = make_plan(season, [0], [[0], [0]], [[3, 3, 3, 3], [0, 1, 1, 1]])

    # 30 min against 5 + half of 40
    assert audit_excess(FIRST, plan, season) == {
        (0, None, "volume", "minutes"): 5,
        (0, None, "sessions", "sessions"): 1,
    }
    assert_agrees(FIRST, plan, season)


def test_the_first_week_of_each_block_is_the_light_one():
    season = make_season(6)
    plan = _work(season, [0, 3], [1, 3, 3, 3, 1, 1])

    assert [(b.week, b.excess) for b in FIRST.audit(plan, season)] == [(3, 45)]
    assert_agrees(FIRST, plan, season)


def test_the_last_week_of_each_block_is_the_light_one():
    season = make_season(6)
    plan = _work(season, [0, 3], [1, 3, 3, 3, 3, 1])

    # 60 min against 5 + half of 40
    assert [(b.week, b.excess) for b in LAST.audit(plan, season)] == [(2, 35)]
    assert_agrees(LAST, plan, season)


def test_a_part_of_a_minute_counts_as_one():
    season = make_season(4)
    plan = make_plan(season, [0], [[0], [0]], [[1, 1, 2, 2], [1, 0, 0, 0]])
    rule = FIRST.model_copy(update={"sessions": 0, "percent": 47})

    # 20 min against 5 + 47 % of 16.7
    assert [b.excess for b in rule.audit(plan, season)] == [8]
    assert_agrees(rule, plan, season)


def test_a_run_in_is_no_measure_of_the_week_that_opens_its_block_nor_a_waiver():
    season = make_season(4, fixtures=[match_on(3, priority=Priority.HIGH)])
    plan = _work(season, [0], [1, 3, 1, 1])
    light = FIRST.model_copy(update={"sessions": 0, "allowance": -10})

    for rule in (light, light.model_copy(update={"yields": False})):
        # 20 min against half of 60 less 10; the mean of all three is 33
        assert audit_excess(rule, plan, season) == {}
        assert_agrees(rule, plan, season)


def test_a_week_with_three_matches_in_seven_days_is_no_measure_of_another():
    crowd = [match_on(1, 6), match_on(2, 4), match_on(2, 5)]
    light = FIRST.model_copy(update={"sessions": 0, "percent": 100, "allowance": -10})
    plan = _work(make_season(4), [0], [3, 3, 1, 3])

    # 60 min against a mean of 47, and of 60, less 10
    for matches, excess in (([], 24), (crowd, 10)):
        season = make_season(4, fixtures=matches)
        assert [(b.week, b.excess) for b in light.audit(plan, season)] == [(0, excess)]
        assert_agrees(light, plan, season)


def test_every_third_week_is_set_against_the_two_before():
    season = make_season(7)
    plan = _work(season, [0, 4], [3, 3, 3, 3, 3, 2, 3])

    assert [(b.week, b.excess) for b in THIRD.audit(plan, season)] == [(2, 30), (5, 10)]
    assert_agrees(THIRD, plan, season)


def test_every_third_week_is_passed_over_where_one_of_them_is_closed():
    season = make_season(7, closed=(1,))
    plan = _work(season, [0, 2], [3, 0, 3, 1, 1, 3, 3])

    assert [(b.week, b.excess) for b in THIRD.audit(plan, season)] == [(5, 50)]
    assert_agrees(THIRD, plan, season)


def test_a_block_of_one_week_needs_no_deload():
    season = make_season(1)
    plan = _work(season, [0], [3])

    assert FIRST.audit(plan, season) == []
    assert_agrees(FIRST, plan, season)


def test_sessions_are_not_asked_of_crowded_weeks_or_weeks_with_a_break():
    crowded = make_season(3, fixtures=[match_on(0, 0), match_on(0, 6)])
    broken = make_season(3, limits={0: 1})
    for season in (crowded, broken):
        plan = _work(season, [0], [0, 1, 1])

        assert FIRST.audit(plan, season) == []
        assert_agrees(FIRST, plan, season)


def test_two_matches_eight_days_apart_do_not_crowd():
    season = make_season(3, fixtures=[match_on(0, 6), match_on(1, 6)])
    plan = _work(season, [0], [0, 1, 1])

    assert [(b.week, b.part, b.excess) for b in FIRST.audit(plan, season)] == [(0, "sessions", 2)]
    assert_agrees(FIRST, plan, season)


def test_a_waiver_gives_minutes_or_sessions():
    season = make_season(4)
    waive = (Waiver(week=1, part="volume", by=4), Waiver(part="sessions", by=1))
    rule = FIRST.model_copy(update={"waive": waive})
    plan = make_plan(season, [0], [[0], [0]], [[3, 3, 3, 3], [0, 1, 1, 1]])

    assert [(b.part, b.excess) for b in rule.audit(plan, season)] == [("volume", 1)]
    assert_agrees(rule, plan, season)
