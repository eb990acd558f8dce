from made_seasons import make_plan, make_season, match_on

from constraints.deload import Deload
from constraints.exposure import Exposure
from constraints.taper import Taper
from optimiser.domain.fixture import Priority
from optimiser.explain.waivers import waivers, without_matches

HIGH = Priority.HIGH


def _every_other_day(*weeks):
    return [match_on(week, day) for week in weeks for day in (0, 2, 4, 6)]


def test_a_week_without_a_free_day_is_told_with_its_matches():
    fixtures = _every_other_day(1, 2)
    season = make_season(4, fixtures=fixtures)
    plan = make_plan(season, [0], [[0], [0]], [[1, 0, 0, 1], [1, 0, 0, 1]])
    rule = Exposure(gap_weeks={}, usual_gap=1)

    (found,) = waivers(season, plan, [rule])

    assert found.words == (
        "Weeks 2-3: sprint and power left out for longer: matches or breaks leave room for "
        "touches at most."
    )
    assert (found.weeks, found.qualities) == ((2, 3), ("sprint", "power"))
    assert set(found.fixtures) == {match.date for match in fixtures}


def test_without_its_matches_a_waiver_goes_away():
    season = make_season(4, fixtures=_every_other_day(1, 2))
    plan = make_plan(season, [0], [[0], [0]], [[1, 0, 0, 1], [1, 0, 0, 1]])
    rule = Exposure(gap_weeks={}, usual_gap=1)
    (found,) = waivers(season, plan, [rule])

    free = without_matches(season, set(found.fixtures))

    assert waivers(free, plan, [rule]) == ()
    assert {breach.week for breach in rule.audit(plan, free)} == {1, 2}


def test_a_break_is_a_reason_of_its_own_and_names_no_match():
    season = make_season(3, fixtures=[match_on(1)], limits={1: 1})
    plan = make_plan(season, [0], [[0], [0]], [[1, 0, 1], [1, 0, 1]])

    (found,) = waivers(season, plan, [Exposure(gap_weeks={}, usual_gap=1)])

    assert (found.weeks, found.fixtures) == ((2,), ())


def test_high_fixtures_three_weeks_apart_are_told_to_share_a_peak():
    peaks = [match_on(5, priority=HIGH), match_on(8, priority=HIGH)]
    season = make_season(9, fixtures=peaks)
    plan = make_plan(season, [0], [[0], [0]], [[1] * 9, [1] * 9])

    found = [each for each in waivers(season, plan, [Taper()]) if each.part == "apart"]

    assert [each.weeks for each in found] == [(9,)]
    assert found[0].fixtures == tuple(match.date for match in peaks)


def test_what_has_room_is_not_waived():
    season = make_season(6, fixtures=[match_on(5)])
    plan = make_plan(season, [0], [[0], [0]], [[1, 2, 2, 2, 2, 2], [1, 2, 2, 2, 2, 2]])

    assert waivers(season, plan, [Deload(), Exposure(), Taper()]) == ()
