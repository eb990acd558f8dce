import pytest
from made_seasons import assert_agrees, audit_excess, make_plan, make_season, match_on

from constraints.revisit import Revisit
from optimiser.domain.fixture import Priority
from optimiser.rule import Waiver

LOW = Revisit(rung=2, weeks=2, long_season=12, clear=3, settle=1)
HIGH = Priority.HIGH
MISSING = {(None, key, "", "low blocks"): 1 for key in ("sprint", "power")}


def _season(weeks, peaks, **more):
    return make_season(weeks, fixtures=[match_on(week, 5, HIGH) for week in peaks], **more)


def _stand(season, starts, rungs):
    return make_plan(season, starts, [rungs, rungs], [[1] * len(season.weeks)] * 2)


def test_reports_every_quality_that_never_comes_back():
    season = _season(12, [2, 11])
    plan = _stand(season, [0, 4, 8], [0, 2, 0])

    assert audit_excess(LOW, plan, season) == MISSING
    assert_agrees(LOW, plan, season)


@pytest.mark.parametrize(
    ("starts", "rungs", "kept"),
    [
        ([0, 3, 5, 8], [3, 1, 3, 3], True),  # opens the week after the first peak
        ([0, 2, 4, 8], [3, 1, 3, 3], False),  # starts a week too early
        ([0, 3, 7, 9], [3, 3, 1, 3], True),  # closes three weeks before the last peak
        ([0, 3, 8, 10], [3, 3, 1, 3], False),  # ends a week too late
        ([0, 3, 5, 8], [3, 2, 3, 3], False),  # one rung too high
        ([0, 3, 4, 5, 8], [3, 1, 3, 1, 3], True),  # short blocks do not count, a later one does
        ([0, 3, 4, 5, 6, 8], [3, 1, 3, 1, 2, 3], False),  # short blocks only
        ([0, 3, 4, 5, 8], [3, 1, 1, 3, 3], False),  # two blocks of one week are no block of two
    ],
)
def test_the_low_block_lies_whole_inside_the_window(starts, rungs, kept):
    season = _season(12, [2, 11])
    plan = _stand(season, starts, rungs)

    assert audit_excess(LOW, plan, season) == ({} if kept else MISSING)
    assert_agrees(LOW, plan, season)


def test_with_one_peak_the_window_opens_after_the_first_fixtures_have_settled():
    fixtures = [match_on(1), match_on(11, 5, HIGH)]
    season = make_season(12, fixtures=fixtures)
    kept = _stand(season, [0, 2, 4, 8], [3, 1, 3, 3])
    early = _stand(season, [0, 1, 3, 8], [3, 1, 3, 3])

    assert LOW.audit(kept, season) == []
    assert audit_excess(LOW, early, season) == MISSING
    assert_agrees(LOW, kept, season)
    assert_agrees(LOW, early, season)


def test_short_seasons_seasons_without_a_peak_and_narrow_windows_ask_nothing():
    short = _season(11, [2, 10])
    calm = make_season(12, fixtures=[match_on(3)])
    narrow = _season(12, [6, 10])
    for season in (short, calm, narrow):
        plan = _stand(season, [0, 4, 8], [3, 3, 3])

        assert LOW.audit(plan, season) == []
        assert_agrees(LOW, plan, season)


def test_a_window_whose_weeks_are_closed_asks_nothing():
    season = _season(12, [2, 11], closed=(4, 6, 8))
    rule = LOW.model_copy(update={"clear": 4})
    plan = _stand(season, [0, 5, 7, 9], [0, 0, 0, 0])

    assert rule.audit(plan, season) == []
    assert_agrees(rule, plan, season)


def test_a_low_block_may_stand_between_closed_weeks():
    season = _season(12, [2, 11], closed=(3, 6))
    plan = _stand(season, [0, 4, 7], [3, 1, 3])

    assert LOW.audit(plan, season) == []
    assert_agrees(LOW, plan, season)


def test_a_season_of_one_week():
    season = _season(1, [0])
    rule = Revisit(long_season=1, weeks=1, clear=0, settle=0)
    plan = _stand(season, [0], [3])

    # the only week is the peak: with nothing to keep clear it is the window
    assert audit_excess(rule, plan, season) == MISSING
    assert_agrees(rule, plan, season)


def test_a_waiver_spares_a_quality():
    season = _season(12, [2, 11])
    rule = LOW.model_copy(update={"waive": (Waiver(quality="power"),)})
    plan = _stand(season, [0, 4, 8], [3, 3, 3])

    assert audit_excess(rule, plan, season) == {(None, "sprint", "", "low blocks"): 1}
    assert_agrees(rule, plan, season)
