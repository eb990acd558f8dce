import datetime as dt

import pytest
from day_seasons import at, season_of

from constraints.spacing import Spacing
from optimiser.days.day import season_days
from optimiser.days.room import week_room
from optimiser.days.spacing_settings import DaySettings
from optimiser.domain.practice import PracticeWeek


def room(season, week=1, **changes):
    settings = DaySettings(**changes)
    return week_room(season_days(season, settings)[week], settings)


@pytest.mark.parametrize("day", range(7))
def test_a_week_with_one_match_holds_two_field_and_two_gym_sessions(day):
    found = room(season_of(at(0, day), at(1, day), at(2, day)))

    assert found[:5] == (2, 2, 4, True, False)


def test_a_week_without_a_match_holds_three_of_each_and_two_double_days():
    assert room(season_of(at(0, 2), weeks=3))[:5] == (3, 3, 5, True, False)
    assert room(season_of(at(0, 2), weeks=3), doubles=0)[:5] == (3, 3, 3, True, False)
    assert room(season_of(at(0, 2), weeks=3), doubles=7)[:5] == (3, 3, 6, True, False)


def test_a_week_between_evening_matches_has_a_day_but_none_for_the_legs():
    season = season_of(at(0, 5, "20:00"), at(1, 2, "19:00"), at(1, 5, "12:00"))

    assert room(season)[:5] == (1, 1, 2, False, False)


def test_a_week_with_eves_of_matches_only_holds_one_primer_of_each_place():
    season = season_of(at(1, 1), at(1, 4), at(2, 0))

    assert room(season)[:5] == (1, 1, 2, False, True)


def test_matches_every_other_day_leave_no_room_at_all():
    season = season_of(*(at(1, day) for day in (0, 2, 4, 6)))

    assert room(season)[:5] == (0, 0, 0, False, False)


def test_days_farther_apart_are_fewer():
    season = season_of(at(0, 5), at(1, 5))

    assert room(season, jump_days=3).field == 2
    assert room(season, jump_days=4).field == 1
    assert room(season, hard_hours=73).field == 1


def test_a_day_for_both_goes_before_two_days_of_evening_practice_that_hold_field_work_alone():
    """By the rule's rows and by its audit, which looks for days by itself."""
    evenings = PracticeWeek(days=("tuesday", "thursday"), times=("19:30",), field="within")
    season = season_of(*(at(week, 6, "14:00") for week in range(3)))
    weeks = tuple(
        week.model_copy(update={"practice": evenings, "practice_load": 800})
        for week in season.weeks
    )
    season = season.model_copy(update={"weeks": weeks})
    rule = Spacing(earliest=dt.time(18), latest=dt.time(20, 30))

    room, held = rule.rooms(season)[1], rule.held(season, 1)

    assert (room.field, room.gym, room.both) == (1, 1, 2)
    assert (held.field, held.gym, held.both) == (1, 1, 2)
