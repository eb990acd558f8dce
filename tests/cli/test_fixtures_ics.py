import datetime as dt

import pytest

from cli.files.errors import InputError
from cli.files.fixtures_found import ListFacts
from cli.files.fixtures_ics import find_fixtures_ics
from optimiser.domain.fixture import Priority


def read(tmp_path, *events, head="BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:-//Testers//EN\n"):
    body = "".join(
        f"BEGIN:VEVENT\nUID:{n}\n{event}\nEND:VEVENT\n" for n, event in enumerate(events)
    )
    path = tmp_path / "list.ics"
    path.write_text(f"{head}{body}END:VCALENDAR\n".replace("\n", "\r\n"), newline="")
    return [item.fixture for item in find_fixtures_ics(path, ListFacts()).listed]


def test_a_whole_day_event_is_a_fixture_without_kickoff(tmp_path):
    (fixture,) = read(tmp_path, "DTSTART;VALUE=DATE:20260905\nSUMMARY:Ferrow Hill")

    assert (fixture.date, fixture.kickoff) == (dt.date(2026, 9, 5), None)
    assert fixture.opponent == "Ferrow Hill"


def test_a_time_is_that_of_the_event_own_zone(tmp_path):
    (fixture,) = read(tmp_path, "DTSTART;TZID=Pacific/Auckland:20260905T233000\nSUMMARY:Late")

    assert (fixture.date, fixture.kickoff) == (dt.date(2026, 9, 5), dt.time(23, 30))


def test_a_time_in_utc_is_turned_into_that_of_the_calendar(tmp_path):
    head = "BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:-//Testers//EN\nX-WR-TIMEZONE:Pacific/Auckland\n"

    (fixture,) = read(tmp_path, "DTSTART:20260904T230000Z\nSUMMARY:A", head=head)

    assert (fixture.date, fixture.kickoff) == (dt.date(2026, 9, 5), dt.time(11, 0))


def test_a_time_in_utc_stands_where_the_calendar_has_no_zone(tmp_path):
    (fixture,) = read(tmp_path, "DTSTART:20260904T230000Z\nSUMMARY:A")

    assert (fixture.date, fixture.kickoff) == (dt.date(2026, 9, 4), dt.time(23, 0))


@pytest.mark.parametrize("zone", ["Mars/Olympus", "../../etc/passwd"])
def test_a_zone_that_is_none_is_refused(tmp_path, zone):
    head = f"BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:-//Testers//EN\nX-WR-TIMEZONE:{zone}\n"

    with pytest.raises(InputError, match="must be the name of a time zone"):
        read(tmp_path, "DTSTART:20260904T230000Z\nSUMMARY:A", head=head)


@pytest.mark.parametrize(
    ("lines", "priority"),
    [
        ("PRIORITY:1", Priority.HIGH),
        ("PRIORITY:3", Priority.HIGH),
        ("PRIORITY:4", Priority.MEDIUM),
        ("PRIORITY:7", Priority.LOW),
        ("PRIORITY:0", Priority.LOW),
        ("CATEGORIES:Cup,Medium\nPRIORITY:1", Priority.MEDIUM),
        ("CATEGORIES:Cup\nCATEGORIES:high", Priority.HIGH),
        ("CATEGORIES:Cup", Priority.LOW),
    ],
)
def test_priority_is_a_category_or_else_the_number(tmp_path, lines, priority):
    (fixture,) = read(tmp_path, f"DTSTART;VALUE=DATE:20260905\nSUMMARY:A\n{lines}")

    assert fixture.priority is priority


def test_a_cancelled_match_is_left_out(tmp_path):
    day = "DTSTART;VALUE=DATE:202609"

    listed = read(tmp_path, f"{day}05\nSTATUS:CANCELLED", f"{day}12\nSTATUS:CONFIRMED")

    assert [fixture.date.day for fixture in listed] == [12]


@pytest.mark.parametrize(
    ("event", "told"),
    [
        ("SUMMARY:No date", "event 1: must have a start"),
        ("DTSTART:yesterday", "list.ics"),
        ("DTSTART;VALUE=DATE:20260905\nRRULE:FREQ=WEEKLY", "a repeating event"),
    ],
)
def test_an_event_that_is_no_match_is_told_with_its_number(tmp_path, event, told):
    with pytest.raises(InputError) as caught:
        read(tmp_path, event)

    assert told in caught.value.format_message()


@pytest.mark.parametrize("text", ["", "date,opponent\n", "BEGIN:VEVENT\n", "BEGIN:VCALENDAR\n"])
def test_a_file_that_is_no_calendar_is_refused(tmp_path, text):
    path = tmp_path / "list.ics"
    path.write_text(text)

    with pytest.raises(InputError, match="must be a calendar"):
        find_fixtures_ics(path, ListFacts())
