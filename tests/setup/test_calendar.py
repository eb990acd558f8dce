import datetime as dt

import pytest

from optimiser.domain.fixture import Break, Fixture
from optimiser.domain.scenario import Scenario
from optimiser.domain.season import Phase
from optimiser.setup.build import build_season
from optimiser.setup.calendar import (
    build_weeks,
    derive_phases,
)
from optimiser.setup.matches import busiest_seven

MONDAY = dt.date(2027, 1, 4)


def scenario(**changes):
    return Scenario.model_validate(
        {"name": "Testers", "first_monday": MONDAY, "weeks": 8} | changes
    )


def day(week, weekday):
    return MONDAY + dt.timedelta(weeks=week - 1, days=weekday)


def match(week, weekday=5, **more):
    return Fixture(date=day(week, weekday), **more)


def rest(first, last, **more):
    return Break(kind="rest", first=first, last=last, **more)


def letters(phases):
    return "".join(phase.value[0] for phase in phases)


@pytest.mark.parametrize(
    ("weeks", "with_match", "expected"),
    [
        (12, [8, 10], "ooppppppiiio"),
        (4, [0], "iooo"),
        (3, [2], "ppi"),
        (14, [0, 8], "iiiiiiiiiooooo"),
        (14, [0, 9], "ioooopppp" + "i" + "oooo"),
        (3, [], "ooo"),
    ],
)
def test_phases_follow_from_the_weeks_with_a_match(weeks, with_match, expected):
    assert letters(derive_phases(weeks, with_match)) == expected


def test_written_phases_beat_the_fixtures():
    phases = [
        {"phase": "off-season", "first_week": 1},
        {"phase": "pre-season", "first_week": 3},
        {"phase": "off-season", "first_week": 8},
    ]

    weeks = build_weeks(scenario(phases=phases), [match(2)])

    assert letters(week.phase for week in weeks) == "oopppppo"


@pytest.mark.parametrize(
    ("starts", "told"), [([2], "first_week = 1"), ([1, 1], "rising"), ([1, 9], "weeks 1 to 8")]
)
def test_written_phases_must_cover_the_season_in_order(starts, told):
    phases = [{"phase": "off-season", "first_week": start} for start in starts]

    with pytest.raises(ValueError, match=told):
        scenario(phases=phases)


def test_a_match_takes_an_open_day_and_belongs_to_its_week_from_monday_to_sunday():
    weeks = build_weeks(scenario(), [match(2, 0), match(2, 6), match(3, 0)])

    assert [len(week.fixtures) for week in weeks[:4]] == [0, 2, 1, 0]
    assert [week.open_days for week in weeks[:4]] == [7, 5, 6, 7]


def test_a_week_with_one_open_day_left_by_a_rest_is_closed():
    weeks = build_weeks(
        scenario(breaks=[rest(day(2, 0), day(2, 5)), rest(day(4, 0), day(4, 4))]), [match(1)]
    )

    assert [week.closed for week in weeks[:4]] == [False, True, False, False]
    assert [week.session_limit for week in weeks[:4]] == [None, 0, None, 1]


def test_a_match_day_in_a_rest_week_is_not_an_open_day():
    weeks = build_weeks(scenario(breaks=[rest(day(2, 0), day(2, 4))]), [match(2)])

    assert weeks[1].closed
    assert weeks[1].open_days == 1


def test_seven_matches_do_not_close_a_week():
    weeks = build_weeks(scenario(), [match(2, weekday) for weekday in range(7)])

    assert weeks[1].open_days == 0
    assert not weeks[1].closed


@pytest.mark.parametrize(
    ("more", "limit"),
    [({"kind": "exams"}, 2), ({"kind": "exams", "sessions": 1}, 1), ({"kind": "camp"}, None)],
)
def test_a_break_limits_the_sessions_of_every_week_it_touches(more, limit):
    weeks = build_weeks(
        scenario(breaks=[Break(first=day(2, 6), last=day(3, 0), **more)]), [match(1)]
    )

    assert [week.session_limit for week in weeks[:4]] == [None, limit, limit, None]


def test_practice_is_that_of_the_phase_and_none_in_a_closed_week():
    weeks = build_weeks(
        scenario(breaks=[rest(day(5, 0), day(5, 6)), rest(day(6, 0), day(6, 3))]),
        [match(3), match(7)],
    )

    assert [week.practice_load for week in weeks] == [450, 675, 562, 675, 0, 375, 750, 0]


def test_practice_climbs_in_pre_season_and_after_two_closed_weeks_and_eases_before_a_peak():
    weeks = build_weeks(
        scenario(
            weeks=16,
            breaks=[rest(day(10, 0), day(11, 6))],
            phases=[
                {"phase": "pre-season", "first_week": 1},
                {"phase": "in-season", "first_week": 6},
            ],
            practice={"climb": [50, 80], "ease": 60},
        ),
        [match(7), match(15, priority="high")],
    )

    loads = [week.practice_load for week in weeks]
    assert loads[:6] == [round(1125 * 0.5), 900, 1125, 1125, 1125, 750]
    assert loads[9:] == [0, 0, 375, 600, 750, 450, 750]


def test_practice_by_week_beats_the_phase():
    weeks = build_weeks(scenario(practice={"by_week": {2: 90}}), [match(1)])

    assert weeks[1].practice_load == 90


def test_match_load_is_minutes_times_rating_of_every_match():
    weeks = build_weeks(scenario(match={"rpe": 7}), [match(1, 2), match(1, 5, minutes=45.5)])

    assert weeks[0].match_load == 80 * 7 + round(45.5 * 7)


def test_a_hockey_tournament_counts_five_matches_in_seven_days():
    dates = ["07-27", "07-29", "07-30", "08-01", "08-02", "08-04", "08-06", "08-08"]
    fixtures = [Fixture(date=dt.date.fromisoformat(f"2024-{date}")) for date in dates]
    season = build_season(scenario(first_monday=dt.date(2024, 7, 22), weeks=4), fixtures)

    assert [len(week.fixtures) for week in season.weeks] == [1, 5, 2, 0]
    assert busiest_seven(season) == [1, 5, 4, 2]


def test_matches_seven_days_apart_never_count_together():
    season = build_season(scenario(), [match(1), match(2), match(3, 4)])

    assert busiest_seven(season) == [1, 1, 2, 1, 0, 0, 0, 0]


def test_a_season_from_a_leap_february_keeps_its_mondays():
    weeks = build_weeks(scenario(first_monday=dt.date(2028, 2, 21)), [])

    assert [week.monday.isoformat() for week in weeks[:3]] == [
        "2028-02-21",
        "2028-02-28",
        "2028-03-06",
    ]
    assert all(week.phase is Phase.OFF for week in weeks)
