import pytest
from made_seasons import assert_agrees, audit_excess, make_plan, make_season, match_on

from constraints.taper import Taper
from optimiser.domain.fixture import Priority
from optimiser.domain.season import Event
from optimiser.rule import Waiver

EASE = Taper(
    high=(60, 40),
    medium=(50,),
    high_of_full=(),
    medium_of_full=(),
    allowance=0,
    reference=2,
    sessions=80,
    keep_bands=3,
    apart=4,
)
HIGH, MEDIUM = Priority.HIGH, Priority.MEDIUM


def _season(weeks, *peaks, **more):
    return make_season(weeks, fixtures=[match_on(week, 5, rank) for week, rank in peaks], **more)


def _work(season, doses, starts=(0,), rungs=(0,)):
    return make_plan(season, starts, [rungs, rungs], [doses, doses])


def _volumes(rule, plan, season):
    return [(b.week, b.excess) for b in rule.audit(plan, season) if b.part == "volume"]


def test_reports_the_minutes_too_many_of_each_taper_week():
    season = _season(5, (4, HIGH))
    plan = _work(season, [0, 3, 3, 3, 3])

    # 60 min before: 36 and 24 are left
    assert audit_excess(EASE, plan, season) == {
        (3, None, "volume", "minutes"): 24,
        (4, None, "volume", "minutes"): 36,
    }
    assert_agrees(EASE, plan, season)


def test_the_week_before_the_taper_and_the_week_after_the_match_are_free():
    season = _season(6, (4, HIGH))
    plan = _work(season, [3, 3, 3, 1, 1, 3])

    assert EASE.audit(plan, season) == []
    assert_agrees(EASE, plan, season)


def test_a_part_of_a_minute_counts_as_one():
    season = _season(3, (2, MEDIUM))
    rule = EASE.model_copy(update={"medium": (33,)})
    plan = make_plan(season, [0], [[0], [0]], [[1, 1, 2], [0, 1, 0]])

    # 20 min against 33 % of 15
    assert _volumes(rule, plan, season) == [(2, 16)]
    assert_agrees(rule, plan, season)


def test_a_taper_in_week_one_is_measured_against_a_full_week():
    season = _season(1, (0, HIGH))
    light, heavy = _work(season, [1]), _work(season, [3])

    # 40 % of 60 min
    assert EASE.audit(light, season) == []
    assert _volumes(EASE, heavy, season) == [(0, 36)]
    assert_agrees(EASE, light, season)
    assert_agrees(EASE, heavy, season)


def test_the_weeks_measured_against_are_the_nearest_open_ones_before_any_taper():
    season = _season(8, (4, MEDIUM), (7, HIGH), closed=(3,))
    plan = _work(season, [0, 1, 3, 0, 2, 2, 3, 3], [0, 4], [0, 0])

    # week 5 against weeks 2-3 (40), week 7 and 8 against weeks 3 and 6 (50)
    assert _volumes(EASE, plan, season) == [(4, 20), (6, 30), (7, 40)]
    assert_agrees(EASE, plan, season)


def test_only_eight_weeks_are_looked_back():
    rule = EASE.model_copy(update={"high": (), "medium": (50,) * 6, "sessions": 0})
    season = _season(14, (7, MEDIUM), (13, MEDIUM))
    plan = _work(season, [1] * 2 + [3] * 12, [0, 7], [0, 0])

    # weeks 3 to 9 against 20 min, the later ones against a full week: one usual week is too few
    assert _volumes(rule, plan, season) == [
        *((week, 50) for week in range(2, 9)),
        *((week, 30) for week in range(9, 14)),
    ]
    assert_agrees(rule, plan, season)


def test_a_week_before_two_fixtures_takes_the_lower_limit():
    season = _season(5, (3, MEDIUM), (4, HIGH))
    plan = _work(season, [3, 3, 3, 2, 1])

    # week 4: the least of 50 % (medium) and 60 % (high)
    assert _volumes(EASE, plan, season) == [(3, 10)]
    assert_agrees(EASE, plan, season)


def test_sessions_are_kept_unless_matches_crowd_or_a_break_falls_in():
    fixtures = [match_on(3, 0), match_on(3, 5, HIGH)]
    plan_of = {
        "kept": _season(4, (3, HIGH)),
        "crowded": make_season(4, fixtures=fixtures),
        "break": _season(4, (3, HIGH), limits={2: 4, 3: 1}),
    }
    found = {}
    for name, season in plan_of.items():
        plan = make_plan(season, [0], [[0], [0]], [[3, 3, 3, 2], [3, 3, 0, 0]])
        found[name] = [(b.week, b.excess) for b in EASE.audit(plan, season) if b.part == "sessions"]
        assert_agrees(EASE, plan, season)

    # 80 % of two sessions is 1.6, one is held; week 3 is a taper week too
    assert found == {"kept": [(2, 1), (3, 1)], "crowded": [(2, 1)], "break": []}


def test_bands_do_not_fall_into_the_weeks_up_to_a_high_fixture():
    season = _season(8, (6, HIGH))
    plan = _work(season, [1] * 8, [0, 3, 4, 5, 6, 7], [3, 2, 2, 1, 1, 0])

    # weeks 5 to 7 are kept: the fall into week 6 counts, those into weeks 4 and 8 do not
    assert [
        (b.week, b.quality, b.excess) for b in EASE.audit(plan, season) if b.part == "bands"
    ] == [(5, "sprint", 1), (5, "power", 1)]
    assert_agrees(EASE, plan, season)


def test_a_fall_across_a_closed_week_is_no_breach():
    season = _season(5, (4, HIGH), closed=(3,))
    plan = _work(season, [1] * 5, [0, 4], [3, 0])

    assert [b for b in EASE.audit(plan, season) if b.part == "bands"] == []
    assert_agrees(EASE, plan, season)


def test_peaks_lie_apart_or_are_one():
    rule = Taper(high=(), medium=(), high_of_full=(), keep_bands=0, same_peak=2, apart=5)
    season = _season(12, (1, HIGH), (3, HIGH), (6, HIGH), (11, HIGH))
    plan = _work(season, [1] * 12, [0, 8], [0, 0])

    assert [(b.week, b.part, b.excess) for b in rule.audit(plan, season)] == [(6, "apart", 2)]
    assert_agrees(rule, plan, season)


def test_waivers_of_its_parts():
    season = _season(4, (3, HIGH))
    waive = (
        Waiver(week=4, part="volume", by=10),
        Waiver(week=4, quality="power", part="bands", by=1),
    )
    rule = EASE.model_copy(update={"waive": waive})
    plan = _work(season, [3, 3, 1, 3], [0, 3], [2, 0])

    assert [(b.week, b.quality, b.part, b.excess) for b in rule.audit(plan, season)] == [
        (3, None, "volume", 26),
        (3, "sprint", "bands", 2),
        (3, "power", "bands", 1),
    ]
    assert_agrees(rule, plan, season)


@pytest.mark.parametrize("gap", range(1, 9))
def test_by_default_no_two_high_fixtures_are_too_near_to_plan(gap):
    rule = Taper()
    season = _season(16, (6, HIGH), (6 + gap, HIGH))
    plan = _work(season, [1] * 16, [0, 8], [0, 0])

    assert [b for b in rule.audit(plan, season) if b.part == "apart"] == []
    assert_agrees(rule, plan, season)


def test_an_event_over_a_sunday_and_a_monday_is_one_peak():
    season = make_season(3, fixtures=[match_on(1, 6, HIGH), match_on(2, 0, HIGH)])
    days = [fixture.date for fixture in season.fixtures]
    event = season.model_copy(update={"events": (Event(first=days[0], last=days[1]),)})
    rule = EASE.model_copy(update={"yields": False})

    for each, apart in ((season, 1), (event, 0)):
        plan = _work(each, [0, 0, 0])
        assert sum(b.part == "apart" for b in rule.audit(plan, each)) == apart
        assert_agrees(rule, plan, each)
