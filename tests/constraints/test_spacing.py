import datetime as dt

import pytest
from made_seasons import (
    assert_agrees,
    audit_excess,
    make_plan,
    make_quality,
    make_season,
    match_on,
    rest_from,
)

from constraints.spacing import Spacing
from optimiser.domain.weekday import Weekday
from optimiser.rule import Waiver

DAYS = Spacing()
MONDAY_ONLY = Spacing(rest_days=tuple(day for day in Weekday if day is not Weekday.MONDAY))
THREE = (
    make_quality("sprint", "field"),
    make_quality("agility", "field"),
    make_quality("power", "gym"),
)


def _plan(season, doses, field=None, gym=None, start=0):
    plan = make_plan(season, [start], [[0]] * len(season.qualities), doses)
    return plan.model_copy(update={"field": field or plan.field, "gym": gym or plan.gym})


def test_reports_sessions_for_which_a_week_has_no_days():
    season = make_season(1, qualities=THREE, fixtures=[match_on(0, 5)])
    plan = _plan(season, [[3], [3], [3]], field=(3,), gym=(2,))

    # Monday to Thursday hold two sessions of each kind, at least two days apart
    assert audit_excess(DAYS, plan, season) == {
        (0, None, "field", "sessions"): 1,
        (0, None, "sessions", "sessions"): 1,
    }
    assert_agrees(DAYS, plan, season)


def test_a_week_without_a_match_holds_three():
    season = make_season(1, qualities=THREE)
    kept = _plan(season, [[3], [3], [3]], field=(3,), gym=(2,))
    passed = _plan(season, [[3], [3], [3]], field=(4,), gym=(1,))

    assert DAYS.audit(kept, season) == []
    assert audit_excess(DAYS, passed, season) == {(0, None, "field", "sessions"): 1}
    assert_agrees(DAYS, kept, season)
    assert_agrees(DAYS, passed, season)


def test_a_week_full_of_matches_holds_nothing():
    season = make_season(1, fixtures=[match_on(0, day) for day in (0, 2, 4)])
    plan = _plan(season, [[2], [0]])

    assert audit_excess(DAYS, plan, season) == {
        (0, None, "field", "sessions"): 1,
        (0, None, "sessions", "sessions"): 1,
        (0, "sprint", "hard", "doses"): 1,
    }
    assert_agrees(DAYS, plan, season)


def test_a_week_with_eves_of_matches_only_holds_a_primer():
    season = make_season(1, fixtures=[match_on(0, day) for day in (1, 3, 5)])
    primer, work = _plan(season, [[1], [0]]), _plan(season, [[1], [3]])

    assert DAYS.audit(primer, season) == []
    assert audit_excess(DAYS, work, season) == {
        (0, "power", "hard", "doses"): 1,
        (0, None, "gym_primer", "minutes"): 5,
        (0, None, "one_primer", "minutes"): 15,
    }
    assert_agrees(DAYS, primer, season)
    assert_agrees(DAYS, work, season)


@pytest.mark.parametrize(("kickoff", "hard"), [(15, True), (18, True), (19, False)])
def test_hard_work_waits_for_the_hours_after_a_late_match(kickoff, hard):
    late = match_on(0, 5, kickoff=dt.time(kickoff))
    season = make_season(2, fixtures=[late])
    plan = _plan(season, [[0, 2], [0, 0]])

    # 48 h after the end of the match it is Monday 17:00, 20:00 or 21:00; 20:00 is the last start
    assert audit_excess(MONDAY_ONLY, plan, season) == (
        {} if hard else {(1, "sprint", "hard", "doses"): 1}
    )
    assert_agrees(MONDAY_ONLY, plan, season)


def test_days_of_a_break_hold_nothing_and_closed_weeks_are_passed_over():
    season = make_season(2, breaks=[rest_from(1, 0, 6)], closed=(0,))
    plan = _plan(season, [[0, 1], [0, 0]], start=1)

    assert audit_excess(DAYS, plan, season) == {
        (1, None, "field", "sessions"): 1,
        (1, None, "sessions", "sessions"): 1,
    }
    assert_agrees(DAYS, plan, season)


def test_waivers_of_its_parts():
    season = make_season(1, fixtures=[match_on(0, day) for day in (0, 2, 4)])
    waive = (Waiver(week=1, part="field"), Waiver(quality="sprint", part="hard"))
    rule = Spacing(waive=waive)
    plan = _plan(season, [[2], [0]])

    assert audit_excess(rule, plan, season) == {(0, None, "sessions", "sessions"): 1}
    assert_agrees(rule, plan, season)
