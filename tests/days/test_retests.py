"""Retests stand in lighter weeks, 6 to 12 apart, away from matches and tapers."""

import datetime as dt
from itertools import pairwise

import pytest
from day_seasons import at, season_of

from optimiser.days.retests import retest_days, retest_weeks

SATURDAYS = [at(week, 5, "15:00") for week in range(40)]


def test_days_are_72_hours_after_a_match_and_96_before_one():
    season = season_of(at(0, 5), at(1, 5), weeks=4)

    for week in range(4):
        for day in retest_days(season, week):
            for match in (fixture.date for fixture in season.fixtures):
                assert (day - match).days >= 3 or (match - day).days >= 4
    # from Saturday to Saturday only Tuesday is left
    assert [f"{day:%a}" for day in retest_days(season, 1)] == ["Tue"]


def test_the_second_half_of_the_week_comes_first():
    assert [f"{day:%a}" for day in retest_days(season_of(weeks=2), 1)] == ["Thu", "Fri", "Sat"]


def test_a_week_of_two_matches_has_no_day():
    assert retest_days(season_of(at(1, 1), at(1, 5), weeks=3), 1) == ()


@pytest.mark.parametrize("every", [2, 3, 4, 5])
def test_they_are_6_to_12_weeks_apart_and_never_in_a_taper(every):
    season = season_of(*SATURDAYS, weeks=40)
    tapers = {11, 12, 23}

    found = retest_weeks(season, range(0, 40, every), tapers)

    assert found
    assert not set(found) & tapers
    assert all(week % every == 0 for week in found)
    assert all(6 <= after - before <= 12 for before, after in pairwise(found))


def test_where_no_lighter_week_is_near_the_next_one_counts():
    assert retest_weeks(season_of(weeks=40), [30], ()) == (30,)
    assert retest_weeks(season_of(weeks=40), [], ()) == ()


def test_a_lighter_week_that_would_come_too_soon_does_not_lengthen_the_gap_after_it():
    # after 11 the next would be 28; 16 comes too soon
    assert retest_weeks(season_of(weeks=30), [5, 11, 16, 28], ()) == (5, 16, 28)


def test_the_second_half_of_a_week_is_preferred_between_weeks_too():
    season = season_of(*(match for match in SATURDAYS if match.date != at(9, 5).date), weeks=20)

    assert retest_weeks(season, [8, 9, 10], ()) == (9,)


def test_a_break_has_no_tests():
    closed = season_of(weeks=3)
    week = closed.weeks[1].model_copy(update={"closed": True})
    season = closed.model_copy(update={"weeks": (closed.weeks[0], week, closed.weeks[2])})

    assert retest_days(season, 1) == ()
    assert isinstance(retest_days(season, 2)[0], dt.date)
