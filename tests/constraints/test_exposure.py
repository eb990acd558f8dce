from made_seasons import assert_agrees, audit_excess, make_plan, make_season, match_on

from constraints.exposure import Exposure
from optimiser.rule import Waiver

GAPS = Exposure(gap_weeks={"sprint": 1, "power": 2}, match_counts=("sprint",), spared=3)


def _work(season, sprint, power, starts=(0,)):
    rungs = [0] * len(starts)
    return make_plan(season, starts, [rungs, rungs], [sprint, power])


def _places(rule, plan, season):
    return [(b.week, b.quality) for b in rule.audit(plan, season)]


def test_reports_the_week_in_which_a_gap_grows_too_long():
    season = make_season(4)
    plan = _work(season, [1, 1, 1, 1], [1, 0, 0, 0])

    assert audit_excess(GAPS, plan, season) == {
        (2, "power", "", "exposures"): 1,
        (3, "power", "", "exposures"): 1,
    }
    assert_agrees(GAPS, plan, season)


def test_a_gap_may_end_with_its_last_week_and_start_with_week_one():
    season = make_season(4)
    plan = _work(season, [1, 1, 1, 1], [0, 1, 0, 3])

    assert GAPS.audit(plan, season) == []
    assert_agrees(GAPS, plan, season)


def test_a_match_is_an_exposure_to_sprinting_only():
    season = make_season(2, fixtures=[match_on(0), match_on(1)])
    plan = _work(season, [0, 0], [0, 0])

    assert _places(GAPS, plan, season) == [(1, "power")]
    assert_agrees(GAPS, plan, season)


def test_closed_crowded_and_broken_weeks_are_not_counted():
    crowd = [match_on(2, day) for day in (0, 3, 6)]
    season = make_season(7, fixtures=crowd, closed=(1,), limits={0: 1, 5: 2})
    plan = _work(season, [0] * 7, [0] * 7, [0, 2])

    # on week 4's Monday only two matches lie within seven days: it counts again
    assert _places(GAPS, plan, season) == [
        (3, "sprint"),
        (4, "sprint"),
        (5, "sprint"),
        (6, "sprint"),
        (4, "power"),
        (5, "power"),
        (6, "power"),
    ]
    assert_agrees(GAPS, plan, season)


def test_a_gap_runs_on_over_weeks_that_are_not_counted():
    season = make_season(4, closed=(1, 2))
    plan = _work(season, [1, 0, 0, 1], [0, 0, 0, 0], [0, 3])

    assert _places(GAPS, plan, season) == [(3, "power")]
    assert_agrees(GAPS, plan, season)


def test_a_season_shorter_than_the_gap_asks_nothing():
    season = make_season(1)
    plan = _work(season, [1], [0])

    assert GAPS.audit(plan, season) == []
    assert_agrees(GAPS, plan, season)


def test_a_quality_that_is_not_named_has_the_usual_gap():
    season = make_season(3)
    rule = Exposure(gap_weeks={"sprint": 1}, usual_gap=3)
    plan = _work(season, [1, 1, 1], [0, 0, 0])

    assert _places(rule, plan, season) == [(2, "power")]
    assert_agrees(rule, plan, season)


def test_a_waiver_spares_one_quality_in_one_week():
    season = make_season(3)
    rule = GAPS.model_copy(update={"waive": (Waiver(week=2, quality="sprint"),)})
    plan = _work(season, [0, 0, 0], [1, 1, 1])

    assert _places(rule, plan, season) == [(0, "sprint"), (2, "sprint")]
    assert_agrees(rule, plan, season)
