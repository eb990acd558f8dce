import pytest
from made_seasons import assert_agrees, audit_excess, make_plan, make_season

from constraints.rest import Rest
from optimiser.domain.quality import Dose
from optimiser.rule import Waiver

REST = Rest()


def _plan(season, starts=(0,)):
    rungs = [0] * len(starts)
    return make_plan(season, starts, [rungs, rungs], [[3] * len(season.weeks)] * 2)


def test_reports_sessions_above_the_limit_of_a_break():
    season = make_season(4, limits={0: 0, 1: 1, 3: 2})
    plan = _plan(season)

    assert audit_excess(REST, plan, season) == {
        (0, None, "", "sessions"): 2,
        (1, None, "", "sessions"): 1,
    }
    assert_agrees(REST, plan, season)


def test_closed_weeks_are_free_of_themselves():
    season = make_season(4, closed=(0, 2), limits={0: 0})
    plan = _plan(season, [1, 3])

    assert REST.audit(plan, season) == []
    assert_agrees(REST, plan, season)


@pytest.mark.parametrize(("gym", "dose", "excess"), [(2, 3, 2), (0, 1, 1), (1, 0, 1)])
def test_an_edited_plan_that_trains_in_a_closed_week_is_found_out(gym, dose, excess):
    season = make_season(2, closed=(1,))
    plan = _plan(season)
    doses = ((Dose.FULL, Dose.NONE), (Dose.FULL, Dose(dose)))
    edited = plan.model_copy(update={"gym": (1, gym), "doses": doses})

    assert audit_excess(REST, edited, season) == {(1, None, "closed", "sessions"): excess}


def test_a_season_of_one_week():
    season = make_season(1, limits={0: 1})
    plan = _plan(season)

    assert audit_excess(REST, plan, season) == {(0, None, "", "sessions"): 1}
    assert_agrees(REST, plan, season)


def test_a_waiver_gives_sessions_in_its_week():
    season = make_season(2, limits={0: 0, 1: 0})
    rule = Rest(waive=(Waiver(week=2, by=1),))
    plan = _plan(season)

    assert audit_excess(rule, plan, season) == {
        (0, None, "", "sessions"): 2,
        (1, None, "", "sessions"): 1,
    }
    assert_agrees(rule, plan, season)
