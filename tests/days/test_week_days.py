import datetime as dt
import json
from itertools import pairwise

import pytest
from day_seasons import at, plan_of, season_of
from hypothesis import given
from hypothesis import strategies as st

from constraints.spacing import Spacing
from optimiser.athlete.week_load import week_load
from optimiser.days.day import season_days
from optimiser.days.practice import practice_count, week_practices
from optimiser.days.spacing_settings import DaySettings
from optimiser.days.week import WeekMaker
from optimiser.days.week_plan import WeekPlan
from optimiser.domain.practice import Practice, PracticeWeek
from optimiser.review.score import training_load, training_minutes

SATURDAYS = (at(0, 5, "15:00"), at(1, 5, "15:00"), at(2, 5, "15:00"))
DOSES = {"sprint": 2, "sled": 3, "jumps": 1, "power": 3, "strength": 3, "upper_body": 2}


def made(season, doses=DOSES, field=2, gym=2, week=1, **more):
    return WeekMaker(season, **more).week(plan_of(season, doses, field, gym), week)


def sessions(week):
    return [(day, session) for day in week.days for session in day.sessions]


@given(
    doses=st.fixed_dictionaries(dict.fromkeys(DOSES, st.integers(0, 3))),
    practice=st.integers(0, 1500),
    field=st.integers(1, 2),
)
def test_the_days_add_up_to_the_week(doses, practice, field):
    season = season_of(
        at(0, 5), at(1, 2, minutes=90), at(1, 5, minutes=37), practice=[practice] * 3
    )
    week = made(season, doses, field)
    plan = plan_of(season, doses, field)

    trained = training_load(season, plan, 1)
    assert week.load.total == trained + practice + season.weeks[1].match_load
    own = [s.minutes - s.warm_up - s.finish for _, s in sessions(week)]
    assert sum(own) == training_minutes(season, plan, 1)
    assert week.load == week_load([day.load for day in week.days])


def test_each_quality_is_done_as_often_as_its_parts_say():
    parts = [
        (work.quality, work.part, work.parts)
        for _, session in sessions(made(season_of(*SATURDAYS)))
        for work in session.work
    ]

    for key in DOSES:
        numbers = [part for quality, part, _ in parts if quality == key]
        assert {whole for quality, _, whole in parts if quality == key} == {len(numbers)}
        assert numbers == list(range(1, len(numbers) + 1))
        assert len(numbers) == 1 if DOSES[key] == 1 else len(numbers) <= 2


@pytest.mark.parametrize("apart", [2, 3])
def test_sessions_are_as_many_days_apart_as_asked(apart):
    usual = made(season_of(*SATURDAYS))
    asked = made(season_of(*SATURDAYS), settings=DaySettings(session_days=apart), field=2, gym=2)

    def gaps(week):
        dates = sorted({day.date for day, _ in sessions(week)})
        return [(after - before).days for before, after in pairwise(dates)]

    assert min(gaps(usual)) == 1
    kept = min(gaps(asked), default=apart) >= apart
    assert kept or any(f"less than {apart} days apart" in fault for fault in asked.faults)
    assert kept or apart == 3


def test_field_comes_before_gym_and_speed_before_strength():
    week = made(season_of(*SATURDAYS), field=1, gym=1, settings=DaySettings(rest_days=()))

    for day in week.days:
        assert [s.place for s in day.sessions] == sorted(s.place for s in day.sessions)
    order = [work.quality for _, s in sessions(week) if s.place == "field" for work in s.work]
    assert order == ["sprint", "jumps", "sled"]


def test_a_hard_session_between_matches_says_when_it_may_start():
    season = season_of(at(0, 5, "15:00"), at(1, 2, "19:00"), at(1, 5))
    week = made(season, {"sprint": 3}, 1, 0)
    ((day, session),) = sessions(week)

    assert day.label == "MD-2"
    assert (session.start_from, session.start_by) == ("17:00", "19:00")


def test_a_session_that_is_not_hard_may_start_at_any_time():
    week = made(season_of(*SATURDAYS), {"sprint": 1, "strength": 1}, 1, 1)

    assert {(s.start_from, s.start_by) for _, s in sessions(week)} == {(None, None)}


def test_a_match_is_shown_with_kick_off_and_its_share_of_the_load():
    season = season_of(at(1, 2, "19:45", opponent="Ferrow Hill"), at(1, 5, minutes=40))
    first, second = (day.match for day in made(season).days if day.match)

    assert (first.opponent, first.kickoff, second.kickoff) == ("Ferrow Hill", "19:45", None)
    assert (first.load, second.load) == (640, 320)


def test_what_cannot_be_kept_is_said():
    season = season_of(*(at(1, day) for day in (0, 2, 4)))
    week = made(season, {"sprint": 3}, 1, 0)

    assert week.faults
    assert all("day" in words for words in week.faults)


def test_two_sessions_on_one_day_are_told_how_to_be_kept_apart():
    season = season_of(at(0, 5), at(1, 1), at(1, 5))
    week = made(season, {"sprint": 3, "strength": 3}, 1, 1)

    assert week.faults == ()
    assert any("field first" in note for note in week.notes)


def test_work_without_a_session_gets_one():
    week = made(season_of(*SATURDAYS), {"sprint": 1, "strength": 1}, 0, 0)

    assert sorted(s.place for _, s in sessions(week)) == ["field", "gym"]


def test_a_closed_week_has_seven_closed_days_and_no_load():
    week = made(season_of(at(0, 5), closed=[1]))

    assert {day.kind for day in week.days} == {"closed"}
    assert (week.load.total, week.load.monotony) == (0, None)


def test_a_week_survives_the_way_through_json():
    week = made(season_of(*SATURDAYS, practice=[750] * 3))

    assert WeekPlan.model_validate(json.loads(week.model_dump_json())) == week
    assert json.loads(week.model_dump_json())["format"] == "seasonwright.week/1"


def test_an_evening_of_practice_that_leaves_no_hours_adds_no_load_to_a_week():
    # Between two Mondays: practice at seven on Thursday and Friday leaves Saturday, MD-2, alone.
    usual = PracticeWeek(days=("thursday", "friday"), times=(dt.time(19),))
    season = season_of(at(0, 0, "19:45"), at(1, 0, "19:45"), weeks=2)
    weeks = [
        week.model_copy(update={"practice": usual, "practice_load": usual.load(2)})
        for week in season.weeks
    ]
    busy = season.model_copy(update={"weeks": tuple(weeks)})
    rule = Spacing(earliest=dt.time(18), latest=dt.time(20, 30), closes=dt.time(22))

    room, held = rule.rooms(busy)[0], rule.held(busy, 0)

    assert (room.both, room.load) == (held.both, held.load) == (2, rule.load_before_2)


# --- practice -------------------------------------------------------------------------------


def practised(season, usual, week=1):
    days = season_days(season, DaySettings())[week]
    return tuple(sorted(week_practices(season.weeks[week], days, usual).usual))


@pytest.mark.parametrize(
    ("count", "days"), [(1, (1,)), (2, (1, 2)), (3, (1, 2, 3)), (4, (1, 2, 3, 4)), (0, ())]
)
def test_practice_leads_up_to_the_match(count, days):
    usual = PracticeWeek(sessions=count)
    season = season_of(*SATURDAYS, practice=[usual.load(count)] * 3)

    assert practised(season, usual) == days


def test_the_users_weekdays_come_first_and_a_match_day_is_passed_over():
    usual = PracticeWeek(days=("monday", "wednesday", "saturday"))
    season = season_of(*SATURDAYS, practice=[usual.load(3)] * 3)

    assert usual.sessions == 3
    assert practised(season, usual) == (0, 1, 2)


def test_far_from_any_match_practice_is_on_tuesday_and_thursday():
    usual = PracticeWeek()
    season = season_of(weeks=2, practice=[usual.load(2)] * 2)

    assert practised(season, usual) == (1, 3)


def test_practice_stays_off_the_weekly_day_of_rest_where_other_days_can_hold_it():
    usual = PracticeWeek()
    season = season_of(at(1, 2, "19:45"), at(2, 5), practice=[usual.load(2)] * 3)

    days = made(season, practice=Practice(in_season=usual)).days

    assert sum(day.practice is not None for day in days) == 2
    assert days[6].practice is None


@pytest.mark.parametrize(("rpe", "said"), [(5, True), (3, False)])
def test_heavy_practice_on_the_day_before_a_match_is_named(rpe, said):
    usual = PracticeWeek(days=("friday",), minutes=75, rpe=rpe)
    season = season_of(*SATURDAYS, practice=[usual.load(1)] * 3)

    notes = made(season, practice=Practice(in_season=usual)).notes

    assert any("Friday: team practice of 375 AU" in note for note in notes) is said


def test_practice_on_the_day_after_a_match_and_a_day_of_travel_are_named():
    usual = PracticeWeek(days=("thursday",))
    far = at(1, 2, "20:00", travel_hours=7)
    week = made(season_of(far, at(1, 5), practice=[usual.load(1)] * 3),
                practice=Practice(in_season=usual))  # fmt: skip

    assert week.days[1].kind == "travel"
    assert any("Thursday" in note and "recovery is meant" in note for note in week.notes)


def test_a_load_given_by_hand_becomes_as_many_practices_as_it_holds():
    usual = PracticeWeek(minutes=60, rpe=5)
    counts = [
        practice_count(season_of(weeks=1, practice=[load]).weeks[0], usual)
        for load in (0, 1, 300, 330, 331, 1500)
    ]

    assert counts == [0, 1, 1, 1, 2, 5]


@pytest.mark.parametrize("ease", [40, 55, 70, 85, 100])
@pytest.mark.parametrize("sessions", [1, 2, 3])
def test_no_practice_of_a_lighter_week_is_longer_than_a_usual_one(ease, sessions):
    usual = PracticeWeek(sessions=sessions)
    season = season_of(at(0, 5), weeks=1, practice=[ease * usual.load(sessions) // 100])

    found = week_practices(season.weeks[0], season_days(season, DaySettings())[0], usual)

    assert found.minutes <= usual.minutes * 1.1
    assert found.count * found.minutes == pytest.approx(ease / 100 * sessions * 75, abs=2)


def test_practice_that_is_left_only_the_eves_of_matches_takes_them_from_primers():
    # Monday and Friday are eves; of three practices two are on the days between.
    season = season_of(at(0, 1), at(0, 5, "12:30"), at(0, 6), weeks=1)
    rule = Spacing(recovery_days=2, primer_days=2, doubles=2, rest_days=())
    rooms = []
    for sessions in (2, 3, 4):
        usual = PracticeWeek(sessions=sessions)
        weeks = [
            week.model_copy(update={"practice": usual, "practice_load": usual.load(sessions)})
            for week in season.weeks
        ]
        busy = season.model_copy(update={"weeks": tuple(weeks)})
        rooms.append(rule.rooms(busy)[0])
        held = rule.held(busy, 0)
        assert (held.field, held.gym, held.both, held.load) == (
            rooms[-1].field, rooms[-1].gym, rooms[-1].both, rooms[-1].load)  # fmt: skip

    assert [(room.both, room.alone, room.load) for room in rooms] == [
        (2, False, 600),
        (2, True, 300),
        (0, True, 0),
    ]


def test_practice_on_days_of_its_own_is_shorter_in_lighter_weeks_and_not_left_out():
    usual = PracticeWeek(days=("tuesday", "thursday"))
    season = season_of(weeks=2, practice=[usual.load(2), round(0.7 * usual.load(2))])
    weeks = [
        week_practices(week, days, usual)
        for week, days in zip(season.weeks, season_days(season, DaySettings()), strict=True)
    ]

    assert [each.fixed for each in weeks] == [(1, 3), (1, 3)]
    assert [each.minutes for each in weeks] == [75, pytest.approx(52.5, abs=1)]


def test_practice_rated_zero_does_not_trip():
    usual = PracticeWeek(rpe=0)
    week = season_of(weeks=1, practice=[500])

    assert practised(week, usual, 0) == (1,)
    shown = made(week, {}, 0, 0, 0, practice=Practice(in_season=usual)).days[1].practice
    assert (shown.minutes, shown.load) == (None, 500)


def test_a_weekday_given_twice_is_refused():
    with pytest.raises(ValueError, match="every weekday may come once"):
        PracticeWeek(days=("monday", "monday"))


def test_dates_run_from_monday_to_sunday():
    days = made(season_of(*SATURDAYS)).days

    assert days[0].weekday == "monday"
    assert [day.date - days[0].date for day in days] == [dt.timedelta(days=n) for n in range(7)]
