import datetime as dt

import pytest
from day_seasons import at, season_of
from made_seasons import FIRST_MONDAY

from optimiser.days.day import season_days
from optimiser.days.labels import label
from optimiser.days.spacing_settings import DaySettings
from optimiser.domain.fixture import Break

USUAL = DaySettings()
LETTERS = {
    "match": "M",
    "closed": "c",
    "rest": "r",
    "recovery": "+",
    "primer": "-",
    "open": "o",
}


def kinds(season, week=1, settings=USUAL):
    return "".join(LETTERS[day.kind] for day in season_days(season, settings)[week])


def hard(season, week=1, settings=USUAL):
    return [day.index for day in season_days(season, settings)[week] if day.hard]


def rest(week, first, last):
    days = [FIRST_MONDAY + dt.timedelta(days=7 * week + day) for day in (first, last)]
    return Break(kind="rest", first=days[0], last=days[1])


def test_a_week_between_two_saturday_matches_has_four_open_days():
    season = season_of(at(0, 5), at(1, 5))

    assert kinds(season) == "oooo-M+"
    assert hard(season) == [0, 1, 2, 3]


def test_a_match_of_the_week_before_and_of_the_week_after_count():
    season = season_of(at(0, 6), at(2, 0))

    assert kinds(season) == "+oooo" + "or"
    assert hard(season) == [1, 2, 3, 4, 5]


def test_matches_two_days_apart_leave_nothing_between_them():
    assert kinds(season_of(at(1, 1), at(1, 3), at(1, 5))) == "-M+M+M+"


def test_the_weekly_rest_day_can_be_moved_or_dropped():
    season = season_of(at(0, 2), at(2, 2))

    assert kinds(season, settings=DaySettings(rest_days=("tuesday",))) == "orooo" + "or"
    assert kinds(season, settings=DaySettings(rest_days=("monday",))) == "rooooo" + "o"


def test_sunday_stays_free_where_monday_can_be_trained_on():
    season = season_of(at(0, 2), at(2, 2))

    assert kinds(season, settings=DaySettings(rest_days=())) == "oooooo" + "r"


def test_sunday_before_a_closed_week_or_at_the_end_of_the_season_is_open():
    season = season_of(at(0, 2), closed=[2])
    last = season_of(at(0, 2), weeks=2)

    assert kinds(season, settings=DaySettings(rest_days=())) == "ooooooo"
    assert kinds(last, settings=DaySettings(rest_days=())) == "ooooooo"


def test_days_of_a_break_and_closed_weeks_are_closed():
    season = season_of(at(2, 5), breaks=[rest(1, 2, 4)], closed=[0])

    assert kinds(season, 0) == "ccccccc"
    assert kinds(season, 1) == "oocccor"


def test_a_break_of_another_kind_closes_nothing():
    camp = rest(1, 0, 6).model_copy(update={"kind": "camp"})

    assert kinds(season_of(at(2, 5), breaks=[camp])) == "oooooor"


@pytest.mark.parametrize(
    ("clock", "window"),
    [
        # Saturday's match ends two hours after kick-off; 48 h later is Monday.
        ("11:00", (13 * 60, 20 * 60)),
        ("15:00", (17 * 60, 20 * 60)),
        ("18:00", (20 * 60, 20 * 60)),
        ("18:01", None),
        (None, (8 * 60, 20 * 60)),
    ],
)
def test_hours_since_a_match_count_from_its_end(clock, window):
    monday = season_days(season_of(at(0, 5, clock), at(1, 5)), USUAL)[1][0]

    assert monday.window == window
    assert monday.hard == (window is not None)


@pytest.mark.parametrize(
    ("clock", "window"),
    [
        ("15:00", (8 * 60, 15 * 60)),
        ("08:00", (8 * 60, 8 * 60)),
        ("07:30", None),
        ("21:00", (480, 1200)),
    ],
)
def test_hours_until_a_match_count_to_its_kick_off(clock, window):
    thursday = season_days(season_of(at(0, 5), at(1, 5, clock)), USUAL)[1][3]

    assert thursday.window == window


def test_an_evening_match_with_an_early_next_one_leaves_no_day_for_the_legs():
    season = season_of(at(0, 5, "20:00"), at(1, 2, "19:00"))

    assert kinds(season)[:3] == "o-M"
    assert 0 not in hard(season)


def test_the_last_match_but_one_counts_if_the_last_has_no_kick_off():
    settings = DaySettings(earliest=dt.time(0), latest=dt.time(0, 30), recovery_days=0)
    season = season_of(at(0, 4, "23:30"), at(0, 5), at(2, 5))

    # Two days after Saturday, but 48 h from Friday's end is half past one on Monday.
    assert 0 in hard(season, settings=settings.model_copy(update={"latest": dt.time(23)}))
    assert 0 not in hard(
        season, settings=settings.model_copy(update={"hours_since": 71, "latest": dt.time(0, 20)})
    )


def test_windows_that_end_before_they_begin_are_refused():
    with pytest.raises(ValueError, match="latest must not come before earliest"):
        DaySettings(earliest=dt.time(12), latest=dt.time(9))


@pytest.mark.parametrize(
    ("since", "until", "name"),
    [
        (0, 7, "MD"),
        (None, 0, "MD"),
        (1, None, "MD+1"),
        (2, None, "MD+2"),
        (3, None, ""),
        (None, 6, "MD-6"),
        (None, 7, ""),
        (None, None, ""),
        (4, 9, ""),
        (1, 8, "MD+1"),
    ],
)
def test_a_day_is_named_by_the_nearer_match_or_not_at_all(since, until, name):
    assert label(since, until) == name
