import datetime as dt
from zoneinfo import ZoneInfo

import pytest
from icalendar import Calendar

from cli.days import Starts
from cli.files.fixtures_found import ListFacts
from cli.files.fixtures_ics import find_fixtures_ics
from cli.report.calendar_file import Times, calendar_bytes, span

NOW = dt.datetime(2027, 1, 10, 12, tzinfo=dt.UTC)
DUBLIN = ZoneInfo("Europe/Dublin")
TIMED = Times(DUBLIN)
MATCHES = """
name = "Clocks"
first_monday = 2027-03-01
weeks = 8
fixtures = [
    {{ date = {first}, opponent = "Ashby", kickoff = "15:00", venue = "home" }},
    {{ date = 2027-04-03, opponent = "Ashby", kickoff = "15:00", venue = "away", minutes = 60 }},
    {{ date = 2027-04-17, opponent = "Cobbleford; North, \\n End", priority = "high" }},
]
"""


@pytest.fixture
def clocks(reported, tmp_path):
    """Eight weeks across the last Sunday of March; the first match can be moved."""

    def make(first="2027-03-20", plan=None, **more):
        return reported(MATCHES.format(first=first), tmp_path / f"{first}.toml", plan, **more)

    return make


def events(data):
    return list(Calendar.from_ical(data).walk("VEVENT"))


def by_uid(data):
    return {str(event["UID"]): event for event in events(data)}


def matches(data):
    return [event for event in events(data) if "PRIORITY" in event]


def test_there_is_an_event_for_each_match_and_each_session(clocks):
    report = clocks()
    data = calendar_bytes(report, Times(), NOW)
    days = [day for week in report.weeks for day in week.days]
    sessions = sum(len(day.sessions) for day in days)
    practices = sum(day.practice is not None for day in days)

    assert len(matches(data)) == 3
    assert len(events(data)) == 3 + sessions + practices
    assert sessions > 8
    assert practices > 8


def test_no_two_events_share_a_uid(clocks):
    data = calendar_bytes(clocks(), Times(), NOW)

    assert len(by_uid(data)) == len(events(data))


def test_a_moved_match_keeps_its_uid_and_counts_as_newer(clocks):
    before = by_uid(calendar_bytes(clocks(), Times(), NOW))
    after = by_uid(calendar_bytes(clocks("2027-03-24"), Times(), NOW + dt.timedelta(days=1)))

    moved = {
        uid: event
        for uid, event in after.items()
        if event["DTSTART"].dt.day == 24 and "PRIORITY" in event
    }
    assert len(moved) == 1
    (uid,) = moved
    assert before[uid]["DTSTART"].dt.day == 20
    assert moved[uid]["SEQUENCE"] > before[uid]["SEQUENCE"]
    assert {u for u, e in before.items() if "PRIORITY" in e} == {
        u for u, e in after.items() if "PRIORITY" in e
    }


def test_the_same_plan_written_again_has_the_same_uids(clocks):
    report = clocks()
    first = calendar_bytes(report, TIMED, NOW)
    again = calendar_bytes(report, TIMED, NOW + dt.timedelta(hours=1))

    assert set(by_uid(first)) == set(by_uid(again))


def test_kickoffs_stand_at_the_same_hour_on_both_sides_of_a_clock_change(clocks):
    winter, summer = matches(calendar_bytes(clocks(), TIMED, NOW))[:2]

    assert winter["DTSTART"].dt.utcoffset() == dt.timedelta(0)
    assert summer["DTSTART"].dt.utcoffset() == dt.timedelta(hours=1)
    assert {event["DTSTART"].dt.hour for event in (winter, summer)} == {15}


def test_a_match_lasts_its_own_minutes_and_half_an_hour(clocks):
    _, short, _ = matches(calendar_bytes(clocks(), TIMED, NOW))

    assert short["DTEND"].dt - short["DTSTART"].dt == dt.timedelta(minutes=90)


def test_what_has_no_time_takes_the_whole_day(clocks):
    untimed = [
        e
        for e in events(calendar_bytes(clocks(), Times(DUBLIN), NOW))
        if not isinstance(e["DTSTART"].dt, dt.datetime)
    ]

    assert all(e["DTEND"].dt - e["DTSTART"].dt == dt.timedelta(days=1) for e in untimed)
    assert [str(e["SUMMARY"])[:11] for e in untimed] == ["Cobbleford;"]


def test_calendar_and_week_say_the_same_hours(clocks):
    report = clocks()
    said = sorted(
        (day.date, thing.start)
        for week in report.weeks
        for day in week.days
        for thing in (*day.sessions, *([day.practice] if day.practice else []))
    )
    shown = sorted(
        (e["DTSTART"].dt.date(), f"{e['DTSTART'].dt:%H:%M}")
        for e in events(calendar_bytes(report, TIMED, NOW))
        if "PRIORITY" not in e
    )

    assert said == shown


def test_a_given_start_is_kept_and_days_go_around_it(clocks):
    report = clocks(starts=Starts(gym=dt.time(7)))
    gyms = [
        s for week in report.weeks for day in week.days for s in day.sessions if s.place == "gym"
    ]

    words = [fault for week in report.weeks for fault in week.faults]
    untold = sum("no hours are left for the gym session" in fault for fault in words)

    assert {session.start for session in gyms} <= {"07:00", None}
    assert untold == sum(session.start is None for session in gyms) < len(gyms) / 2


def test_minutes_are_real_minutes_also_through_a_night_when_clocks_change():
    begins, ends = span(dt.datetime(2027, 3, 28, 0, 30), 60, DUBLIN)

    assert (ends - begins.replace(fold=0)).total_seconds() / 3600 == 2
    assert ends.astimezone(dt.UTC) - begins.astimezone(dt.UTC) == dt.timedelta(hours=1)


def test_a_start_that_clocks_skip_is_when_they_skip_to():
    begins, _ = span(dt.datetime(2027, 3, 28, 1, 15), 60, DUBLIN)

    assert (begins.hour, begins.minute) == (2, 15)


def test_without_a_zone_times_are_local_to_whoever_looks(clocks):
    first = matches(calendar_bytes(clocks(), Times(), NOW))[0]

    assert first["DTSTART"].dt.tzinfo is None
    assert b"VTIMEZONE" not in calendar_bytes(clocks(), Times(), NOW)


def test_our_own_reader_finds_the_fixtures_again(clocks, tmp_path):
    report = clocks()
    path = tmp_path / "back.ics"
    data = calendar_bytes(report, TIMED, NOW)
    path.write_bytes(data)
    read = [item.fixture for item in find_fixtures_ics(path, ListFacts()).listed]

    found = {(f.date, f.kickoff, f.priority) for f in read}
    assert {(f.date, f.kickoff, f.priority) for f in report.season.fixtures} <= found


@pytest.mark.filterwarnings("ignore::DeprecationWarning", "ignore::FutureWarning")
def test_a_second_library_reads_the_same_times(clocks):
    ics = pytest.importorskip("ics", reason="needs ics (extra dev)")
    data = calendar_bytes(clocks(), TIMED, NOW)
    read = {event.uid: event for event in ics.Calendar(data.decode("utf-8")).events}

    ours = by_uid(data)
    assert set(read) == set(ours)
    for uid, event in ours.items():
        start = event["DTSTART"].dt
        if isinstance(start, dt.datetime):
            assert read[uid].begin.datetime.astimezone(dt.UTC) == start.astimezone(dt.UTC)
        else:
            assert read[uid].begin.date() == start


def test_hard_names_stay_text_in_their_own_property(hard, hard_names):
    data = calendar_bytes(hard, TIMED, NOW)
    lines = data.replace(b"\r\n ", b"").split(b"\r\n")

    summaries = [str(event["SUMMARY"]) for event in matches(data)]
    assert len(summaries) == len(hard_names)
    assert any(hard_names["long"] in summary for summary in summaries)
    assert any(summary.startswith("North End United") for summary in summaries)
    assert any(hard_names["hebrew"] in summary for summary in summaries)
    assert not any("\u202e" in summary for summary in summaries)
    assert all(b":" in line for line in lines if line)
    assert all(len(line) <= 75 for line in data.split(b"\r\n"))
