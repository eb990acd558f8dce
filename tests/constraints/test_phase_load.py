from made_seasons import assert_agrees, audit_excess, make_plan, make_season, match_on

from constraints.phase_load import PhaseLoad
from optimiser.domain.season import Phase
from optimiser.rule import Waiver

OFF, PRE, IN = Phase.OFF, Phase.PRE, Phase.IN
# doses of one quality: 60, 120 and 180 AU; a match is 480
HALF = PhaseLoad(percent=50)


def _work(season, doses):
    starts = [week.index for week in season.weeks if _opens(season, week)]
    rungs = [0] * len(starts)
    return make_plan(season, starts, [rungs, rungs], [doses, [0] * len(season.weeks)])


def _opens(season, week):
    return week.index == 0 or season.weeks[week.index - 1].phase is not week.phase


def test_reports_by_how_much_the_mean_week_of_the_season_is_above_its_share():
    season = make_season(4, phases=[PRE, PRE, IN, IN])
    plan = _work(season, [3, 2, 2, 1])

    # 90 on average against half of 150
    assert audit_excess(HALF, plan, season) == {(2, None, "", "AU a week"): 15}
    assert_agrees(HALF, plan, season)


def test_what_is_just_the_share_is_allowed():
    season = make_season(3, phases=[PRE, IN, IN])
    plan = _work(season, [2, 1, 1])

    assert HALF.audit(plan, season) == []
    assert_agrees(HALF, plan, season)


def test_practice_counts_and_matches_do_not():
    season = make_season(2, fixtures=[match_on(1)], phases=[PRE, IN], practice=[200, 100])
    plan = _work(season, [1, 1])

    # 160 against half of 260
    assert [b.excess for b in HALF.audit(plan, season)] == [30]
    assert_agrees(HALF, plan, season)


def test_a_part_of_a_unit_counts_as_one():
    season = make_season(5, phases=[PRE, PRE, PRE, IN, IN])
    rule = PhaseLoad(percent=97)
    plan = _work(season, [1, 1, 2, 2, 2])

    # 120 against 77.6
    assert [b.excess for b in rule.audit(plan, season)] == [43]
    assert_agrees(rule, plan, season)


def test_only_the_pre_season_right_before_counts():
    season = make_season(6, phases=[PRE, OFF, IN, PRE, IN, PRE])
    plan = _work(season, [1, 1, 3, 2, 2, 3])

    assert [(b.week, b.excess) for b in HALF.audit(plan, season)] == [(4, 60)]
    assert_agrees(HALF, plan, season)


def test_closed_weeks_are_passed_over():
    season = make_season(6, closed=(1, 2), phases=[PRE, PRE, IN, IN, IN, IN])
    plan = make_plan(season, (0, 3), [[0, 0], [0, 0]], [[2, 0, 0, 1, 1, 2], [0] * 6])

    # 80 against 60, told in the first week that is open
    assert [(b.week, b.excess) for b in HALF.audit(plan, season)] == [(3, 20)]
    assert_agrees(HALF, plan, season)


def test_a_waiver_gives_load_to_the_stretch_that_begins_in_its_week():
    season = make_season(2, phases=[PRE, IN])
    plan = _work(season, [2, 2])
    elsewhere = HALF.model_copy(update={"waive": (Waiver(week=1, by=50),)})
    there = HALF.model_copy(update={"waive": (Waiver(week=2, by=50),)})

    assert [b.excess for b in elsewhere.audit(plan, season)] == [60]
    assert [b.excess for b in there.audit(plan, season)] == [10]
    assert_agrees(there, plan, season)


def test_nothing_is_asked_by_default():
    season = make_season(2, phases=[PRE, IN])
    plan = _work(season, [0, 3])

    assert PhaseLoad().audit(plan, season) == []
    assert_agrees(PhaseLoad(), plan, season)
