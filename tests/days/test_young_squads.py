"""Under-18s: no two days with a session in a row, and hours of school that are kept free."""

import datetime as dt
from pathlib import Path

import pytest

from cli.days import week_maker
from cli.files.scenario_file import read_scenario
from cli.files.scenario_rules import read_rules
from cli.render.care import season_care_text
from constraints.spacing import Spacing
from optimiser.days.school import Pupils
from optimiser.days.spacing_settings import SCHOOL, DaySettings
from optimiser.days.week_plan import DayPlan, PracticeInfo, SessionPlan
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose

SQUAD = "name,group,body_mass_kg,age\nAda,squad,60,{}\nBea,squad,62,{}\n"
SEASON = """\
name = "Brookmere"
first_monday = 2026-08-31
weeks = 6
fixtures = [ { date = 2026-10-03, kickoff = 11:00:00 } ]
squad_file = "squad.csv"
{more}
"""
GIVEN = '[rules.spacing]\nschool = ["08:00", "14:00"]'
NONE = "[rules.spacing]\nschool = []"
EARLY = (dt.time(8), dt.time(14))


def loaded(folder: Path, ages: tuple[int, ...], more: str = ""):
    (folder / "season.toml").write_text(SEASON.replace("{more}", more))
    if ages:
        (folder / "squad.csv").write_text(SQUAD.format(*ages))
    return read_scenario(folder / "season.toml")


def spacing_of(read):
    return next(rule for rule in read_rules(read) if isinstance(rule, Spacing))


@pytest.mark.parametrize(("ages", "apart"), [((17, 25), 2), ((18, 25), 1), ((17, 15), 2), ((), 1)])
def test_days_with_sessions_are_apart_by_the_youngest(tmp_path, ages, apart):
    read = loaded(tmp_path, ages)

    assert week_maker(read, read_rules(read)).settings.session_days == apart


@pytest.mark.parametrize(
    ("ages", "more", "hours", "assumed"),
    [
        ((17, 15), "", SCHOOL, True),
        ((17, 15), GIVEN, EARLY, False),
        ((17, 15), NONE, None, False),
        ((17, 15), "under_18 = false", None, False),
        ((17, 25), "", None, False),
        ((), "under_18 = true", SCHOOL, True),
        ((), "", None, False),
    ],
)
def test_hours_of_school_are_assumed_where_all_are_under_18_and_nothing_else_is_said(
    tmp_path, ages, more, hours, assumed
):
    read = loaded(tmp_path, ages, more)

    assert spacing_of(read).school == hours
    assert week_maker(read, read_rules(read)).settings.school == hours
    assert ("school from 08:30 to 15:30" in season_care_text(read.season)) == assumed


def test_a_season_is_the_same_whoever_is_in_the_squad_file(tmp_path):
    assert loaded(tmp_path, (17, 15)).digest == loaded(tmp_path, (27, 25)).digest


def test_nothing_of_a_young_squad_is_in_hours_of_school_on_school_days(tmp_path):
    read = loaded(tmp_path, (15, 16))
    keys = read.season.keys
    doses = tuple(
        (Dose.TOUCH,) * 6 if key != "max_strength" else (Dose.REDUCED,) * 6 for key in keys
    )
    plan = Plan(
        starts=(0,), rungs=((1,) * 6,) * len(keys), doses=doses, field=(1,) * 6, gym=(1,) * 6
    )

    week = week_maker(read, read_rules(read)).week(plan, 3)

    starts = [item.start for day in week.days[:5] for item in (*day.sessions, day.practice) if item]
    assert starts
    assert min(starts) >= "15:30"


def test_under_18s_among_adults_are_named_as_their_hours_are_not_kept(tmp_path):
    read = loaded(tmp_path, (17, 25))
    keys = read.season.keys
    doses = ((Dose.TOUCH,) * 6,) * len(keys)
    plan = Plan(
        starts=(0,), rungs=((1,) * 6,) * len(keys), doses=doses, field=(1,) * 6, gym=(1,) * 6
    )

    notes = week_maker(read, read_rules(read)).week(plan, 3).notes
    told = week_maker(loaded(tmp_path, (27, 25)), read_rules(read)).week(plan, 3).notes

    assert any("Under 18: Ada, taken to be at school from 08:30" in note for note in notes)
    assert not any("school" in note for note in told)


def mixed_week(tmp_path, more=""):
    """Return week 4 of a squad with somebody of 17, trained by day."""
    read = loaded(tmp_path, (17, 25), more)
    keys = read.season.keys
    doses = ((Dose.TOUCH,) * 6,) * len(keys)
    rungs = ((1,) * 6,) * len(keys)
    plan = Plan(starts=(0,), rungs=rungs, doses=doses, field=(1,) * 6, gym=(1,) * 6)
    return week_maker(read, read_rules(read)).week(plan, 3)


def test_who_is_at_school_among_adults_trains_before_or_after_where_the_day_has_hours(tmp_path):
    week = mixed_week(tmp_path)
    times = {(own.date, own.use): own for own in week.own_times}
    each_day = ((day, each) for day in week.days[:5] for each in day.sessions)
    in_school = [(day, each) for day, each in each_day if each.start < "15:30"]

    assert in_school
    for day, each in in_school:
        own = times[day.date, each.place]
        assert own.squad == each.start
        assert own.start is None or own.start >= "15:30"
    assert any(own.start for own in week.own_times)
    for day in week.days[:5]:
        mine = sorted(own.start for own in week.own_times if own.date == day.date and own.start)
        assert len(set(mine)) == len(mine)
        if day.practice and day.practice.start < "15:30":
            assert times[day.date, "practice"].start is None
    (note,) = [note for note in week.notes if "Under 18" in note]
    assert "Their own times:" in note
    assert "team practice on" in note


def test_where_the_squad_trains_in_the_evening_nobody_is_kept_from_school(tmp_path):
    practice = '[practice.in_season]\ndays = ["tuesday"]\ntimes = ["18:00"]'
    week = mixed_week(tmp_path, f'[rules.spacing]\nearliest = "17:00"\n{practice}')

    assert week.own_times == ()
    assert any("Nothing of this week falls in them" in note for note in week.notes)


def test_an_evening_without_an_hour_left_has_no_time_of_their_own(tmp_path):
    week = mixed_week(tmp_path, '[rules.spacing]\nlatest = "12:00"\nearliest = "09:00"')

    assert week.own_times
    assert all(own.start is None for own in week.own_times)
    assert any("Agree it with the school" in note for note in week.notes)


def test_times_of_ones_own_leave_the_gaps_of_a_day():
    practice = PracticeInfo(minutes=68, load=300, start="16:35")
    field, gym = (
        SessionPlan(place=place, work=(), minutes=minutes, load=0, hard=False, start=start)
        for place, minutes, start in (("field", 35, "09:20"), ("gym", 30, "10:00"))
    )
    monday = dt.date(2026, 8, 24)

    def times(*sessions, practice=None):
        day = DayPlan(date=monday, weekday="monday", label="", kind="open", practice=practice,
                      sessions=sessions)  # fmt: skip
        return [(own.use, own.start) for own in Pupils(("Ada",), DaySettings()).own_times([day])]

    # field just before practice, the gym six hours before it
    assert times(field, gym, practice=practice) == [("field", "15:30"), ("gym", "08:00")]
    assert times(field, gym) == [("field", "15:30"), ("gym", "16:05")]
    assert times(gym.model_copy(update={"start_by": "12:00", "minutes": 40})) == [("gym", None)]
    # field work that cannot move stays, and the gym does not come just before it
    long = field.model_copy(update={"start": "08:50", "start_by": "15:00", "minutes": 65})
    early = gym.model_copy(update={"start_by": "15:00"})
    assert times(long, early) == [("field", None), ("gym", None)]
