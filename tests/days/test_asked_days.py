"""What people ask of a week's days is kept, with little moved; and what other days mean."""

import pytest
from day_seasons import at, plan_of, season_of

from cli.render.why_days import days_why
from optimiser.days.holds import DayHold
from optimiser.days.other_days import other_days
from optimiser.days.week import WeekMaker
from optimiser.domain.practice import Practice, PracticeWeek

SATURDAYS = (at(0, 5, "15:00"), at(1, 5, "15:00"), at(2, 5, "15:00"))
DOSES = {"sprint": 2, "sled": 2, "jumps": 1, "power": 2, "strength": 2, "upper_body": 2}
SEASON = season_of(*SATURDAYS, practice=[750] * 3)
PLAN = plan_of(SEASON, DOSES, 1, 2)


def places(week):
    return {
        (thing, number)
        for number, day in enumerate(week.days)
        for thing in (*(s.place for s in day.sessions), *(["practice"] if day.practice else []))
    }


def usual():
    return WeekMaker(SEASON).week(PLAN, 1)


@pytest.mark.parametrize("day", range(5))
@pytest.mark.parametrize("thing", ["field", "gym"])
def test_a_closed_room_moves_what_was_in_it_and_as_little_else_as_can_be(thing, day):
    before = places(usual())
    closed = WeekMaker(SEASON, holds={1: [DayHold(thing, day, on=False)]}).week(PLAN, 1)

    after = places(closed)

    assert (thing, day) not in after
    assert closed.faults == ()
    if (thing, day) not in before:
        assert after == before
    else:
        # what was there goes elsewhere, and at most one thing more
        assert len(before - after) <= 2


def test_nothing_else_moves_where_it_need_not():
    week = usual()
    wish = DayHold("gym", min(day for thing, day in places(week) if thing == "gym"))

    asked = WeekMaker(SEASON, holds={1: [wish]}).week(PLAN, 1)

    assert asked == week


def test_the_later_word_on_a_day_counts():
    gym = min(day for thing, day in places(usual()) if thing == "gym")
    maker = WeekMaker(SEASON, holds={1: [DayHold("gym", gym)]})

    closed = maker.week(PLAN, 1, holds=[DayHold("gym", gym, on=False)])

    assert ("gym", gym) not in places(closed)
    assert closed.faults == ()


def test_practice_that_is_given_goes_to_another_day_at_its_time_where_its_own_is_closed():
    evenings = PracticeWeek(days=("tuesday", "thursday"), times=("19:00", "18:00"))
    given = Practice(pre_season=evenings, in_season=evenings)

    def practised(*holds):
        week = WeekMaker(SEASON, practice=given, holds={1: holds}).week(PLAN, 1)
        assert week.faults == ()
        return {day.weekday: day.practice.start for day in week.days if day.practice}

    assert practised() == {"tuesday": "19:00", "thursday": "18:00"}
    off = practised(DayHold("practice", 1, on=False))
    assert off.pop("thursday") == "18:00"
    assert list(off.values()) == ["19:00"]
    assert "tuesday" not in off


def test_other_weeks_are_as_they_were():
    held = WeekMaker(SEASON, holds={1: [DayHold("gym", 0, on=False)]})

    assert held.week(PLAN, 2) == WeekMaker(SEASON).week(PLAN, 2)


def test_every_other_day_is_tried_and_what_is_promised_of_it_holds():
    maker = WeekMaker(SEASON)
    week = maker.week(PLAN, 1)

    found = other_days(maker, PLAN, 1)

    assert [(each.place, each.date) for each in found] == [
        (session.place, day.date) for day in week.days for session in day.sessions
    ]
    for each in found:
        verdicts = {day.date.weekday(): day.verdict for day in each.others}
        assert verdicts[5] == "not possible"
        assert set(verdicts) | {each.date.weekday()} >= {0, 1, 2, 3, 4, 5, 6} - {
            other.date.weekday() for other in found if other.place == each.place
        }
        for day in each.others:
            assert bool(day.why) == (day.verdict != "as good")
            if day.verdict in ("as good", "liked less"):
                moved = [
                    DayHold(each.place, each.date.weekday(), on=False),
                    DayHold(each.place, day.date.weekday()),
                ]
                assert set(maker.week(PLAN, 1, holds=moved).faults) <= set(week.faults)


def test_a_day_that_was_asked_for_is_said_to_be():
    maker = WeekMaker(SEASON, holds={1: [DayHold("gym", 0), DayHold("gym", 1, on=False)]})

    told = days_why(other_days(maker, PLAN, 1))

    assert "Gym stands on Monday (MD+2): because it was asked for." in told
    assert "Tuesday (MD-4) no place for it: it was asked to be free of it." in told
    assert "Saturday (MD) no place for it: on the day of a match." in told
    assert max(map(len, told.splitlines())) <= 100
