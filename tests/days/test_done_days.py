"""What has been done of a week stands on the days it was done on, and the rest where it was."""

import datetime as dt

import pytest
from day_seasons import at, plan_of, season_of

from optimiser.days.done_days import done_days
from optimiser.days.holds import DayHold
from optimiser.days.week import WeekMaker
from optimiser.progress.done_session import DoneSession

SEASON = season_of(*(at(week, 5, "15:00") for week in range(3)), practice=[750] * 3)
DOSES = {"sprint": 2, "sled": 1, "jumps": 1, "power": 2, "strength": 2, "upper_body": 1}
PLAN = plan_of(SEASON, DOSES, 1, 2)
MONDAY = SEASON.weeks[1].monday


def placed(until=0, done=(), holds=()):
    """Return week 2 by (day, work), on the day `until` of it, with what was done on which day."""
    told = [
        DoneSession(date=MONDAY + dt.timedelta(days=day), what=what, minutes=20)
        for what, day in done
    ]
    found = done_days(SEASON.weeks[0].monday, told, MONDAY + dt.timedelta(days=until))
    maker = WeekMaker(SEASON, holds={1: holds}, done=found, planned=(SEASON, PLAN))
    days = maker.week(PLAN, 1).days
    held = {
        (at_, work.quality) for at_, day in enumerate(days) for s in day.sessions for work in s.work
    }
    return held | {(at_, "practice") for at_, day in enumerate(days) if day.practice}


def days_of(week, key):
    return sorted(day for day, what in week if what == key)


@pytest.mark.parametrize("key", ["sprint", "strength", "practice"])
def test_what_is_on_record_stands_on_its_day_and_what_is_over_where_it_was_planned(key):
    planned = placed()
    wanted = days_of(planned, key)
    day = next(day for day in range(5) if day not in wanted)

    there = placed(until=day + 1, done=[(key, day)])

    assert day in days_of(there, key)
    # whatever stood before that day and is not on record went as planned
    others = {each for each in planned if each[0] <= day and each[1] != key}
    assert others <= there
    # and nothing new is put on a day that is over
    assert {each for each in there - planned if each[0] <= day} == {(day, key)}


def test_nothing_moves_if_all_was_done_as_planned():
    planned = placed()

    done = [(key, day) for day, key in planned if day < 3]

    assert placed(until=3, done=done) == planned
    assert placed(until=3) == planned


def test_what_is_asked_in_the_middle_of_a_week_moves_nothing_that_is_over():
    planned = placed()
    gym = next(day for day, what in sorted(planned, reverse=True) if what in ("power", "strength"))

    asked = placed(until=gym, holds=[DayHold("gym", gym, on=False)])

    assert {each for each in asked if each[0] < gym} == {each for each in planned if each[0] < gym}
    assert not any(day == gym and what in ("power", "strength") for day, what in asked)


def test_what_was_missed_stands_nowhere():
    missed = DoneSession(date=MONDAY, what="power", dose="none")

    assert not done_days(SEASON.weeks[0].monday, [missed], MONDAY)[1].recorded
