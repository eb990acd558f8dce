import pytest

from cli.files.errors import InputError
from cli.files.fixtures_found import ListFacts, found_words
from cli.files.fixtures_ics import find_fixtures_ics

HEAD = "BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:-//Testers//EN\n"


def found(folder, *events, head=HEAD, **asked):
    body = "".join(f"BEGIN:VEVENT\n{event}\nEND:VEVENT\n" for event in events)
    path = folder / "list.ics"
    path.write_text(f"{head}{body}END:VCALENDAR\n".replace("\n", "\r\n"), newline="")
    return find_fixtures_ics(path, ListFacts(**asked))


def day(number, name="Ferrow Hill", uid="", more=""):
    start = f"UID:{uid or number}\nDTSTART;VALUE=DATE:202609{number:02}\nSUMMARY:{name}"
    return f"{start}\n{more}" if more else start


def days(read):
    return [item.fixture.date.day for item in read.listed]


def repeats(rule, start="DTSTART;VALUE=DATE:20260905", more=""):
    return f"UID:1\n{start}\nSUMMARY:League\nRRULE:{rule}{more}"


def test_of_one_uid_the_highest_sequence_counts(tmp_path):
    read = found(
        tmp_path,
        day(12, uid="a", more="SEQUENCE:2"),
        day(5, uid="a", more="SEQUENCE:1"),
        day(19, uid="b"),
    )

    assert days(read) == [12, 19]
    assert [item.where for item in read.left_out] == ["event 2"]


def test_a_match_cancelled_by_a_later_version_is_left_out(tmp_path):
    read = found(tmp_path, day(5, uid="a"), day(5, uid="a", more="SEQUENCE:1\nSTATUS:CANCELLED"))

    assert days(read) == []


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("Ferrow Hill (POSTPONED)", "postponed"),
        ("Cancelled: Ferrow Hill", "cancelled"),
        ("Team training", "training"),
        ("Summer camp", "training"),
        ("Parents meeting", "training"),
        ("Gym session", "training"),
    ],
)
def test_what_is_no_match_is_left_out_by_its_name(tmp_path, name, kind):
    read = found(tmp_path, day(5, name), day(12))

    assert days(read) == [12]
    assert read.left_out[0].kind == kind


def test_names_that_only_look_like_trainings_are_matches(tmp_path):
    read = found(tmp_path, day(5, "Camp Hill"), day(12, "Training v Saltmere"))

    assert days(read) == [5, 12]


def test_a_stretch_of_days_is_left_out(tmp_path):
    read = found(
        tmp_path,
        day(5, "Tour", more="DTEND;VALUE=DATE:20260909"),
        day(12, more="DTEND;VALUE=DATE:20260913"),
    )

    assert days(read) == [12]
    assert "2 entries: 1 match, 1 stretch of days left out" in found_words("x", read)[0]


def test_only_what_has_the_text_is_kept(tmp_path):
    assert days(found(tmp_path, day(5, "U16 Saltmere"), day(12, "First: B"), match="first")) == [12]


def timed(number, name, more=""):
    start = f"UID:t{number}\nDTSTART:202609{number:02}T150000\nSUMMARY:{name}"
    return f"{start}\n{more}" if more else start


def test_what_lasts_all_day_among_kickoffs_is_no_match_unless_it_says_so(tmp_path):
    events = [
        timed(5, "Saltmere"),
        timed(12, "B"),
        timed(26, "C"),
        day(19, "Bank day"),
        day(20, "v D"),
    ]

    read = found(tmp_path, *events)

    assert days(read) == [5, 12, 26, 20]
    assert [(item.name, item.kind) for item in read.left_out] == [("Bank day", "all-day")]
    assert days(found(tmp_path, *events, match="bank")) == [19]


@pytest.mark.parametrize(
    "name", ["Club AGM", "Awards dinner", "Physio screening", "Sara's birthday"]
)
def test_other_occasions_are_no_matches(tmp_path, name):
    read = found(tmp_path, timed(5, name), timed(12, "Dinner Cup final"))

    assert days(read) == [12]
    assert read.left_out[0].kind == "occasion"


def test_one_calendar_or_category_of_several_is_kept(tmp_path):
    named = HEAD + "X-WR-CALNAME:First team\n"
    other = "CATEGORIES:Juniors"

    kept = found(tmp_path, timed(5, "A"), timed(12, "B", other), head=named, calendar="juniors")

    assert days(kept) == [12]
    assert kept.left_out[0].kind == "elsewhere"
    assert days(found(tmp_path, timed(5, "A"), head=named, calendar="first")) == [5]
    with pytest.raises(InputError, match=r"There are: First team, Juniors"):
        found(tmp_path, timed(12, "B", other), head=named, calendar="second")


def test_what_may_be_no_match_is_said(tmp_path):
    events = [timed(5, "v A"), timed(12, "v B"), timed(14, "Kit handout"), timed(19, "C v D")]
    sorted_events = [timed(5, "A", "CATEGORIES:Seniors"), timed(6, "B", "CATEGORIES:Juniors,high")]

    assert "not called so: Kit handout;" in found(tmp_path, *events).notices[0]
    assert found(tmp_path, *events, match="v").notices == []
    assert "these are of Juniors and Seniors;" in found(tmp_path, *sorted_events).notices[0]
    assert found(tmp_path, timed(5, "A", "CATEGORIES:Seniors")).notices == []


def test_a_zone_given_turns_utc_into_the_local_day(tmp_path):
    late = "UID:1\nDTSTART:20260904T230000Z\nSUMMARY:A"

    assert days(found(tmp_path, late, zone="Pacific/Auckland")) == [5]
    assert found(tmp_path, late, zone="Pacific/Auckland").notices == []
    assert "UTC" in found(tmp_path, late).notices[0]


@pytest.mark.parametrize(
    ("rule", "expected"),
    [
        ("FREQ=WEEKLY;COUNT=3", [5, 12, 19]),
        ("FREQ=WEEKLY;UNTIL=20260919", [5, 12, 19]),
        ("FREQ=DAILY;INTERVAL=7;UNTIL=20260912T235959Z", [5, 12]),
        ("FREQ=WEEKLY;COUNT=3;BYDAY=SA,TU", [5, 8, 12]),
        ("FREQ=MONTHLY;COUNT=3", [5, 5, 5]),
        ("FREQ=MONTHLY;UNTIL=20261130;BYDAY=1SA", [5, 3, 7]),
    ],
)
def test_a_repeating_match_is_expanded(tmp_path, rule, expected):
    assert days(found(tmp_path, repeats(rule))) == expected


def test_a_repeat_in_a_zone_keeps_its_hour(tmp_path):
    start = "DTSTART;TZID=Europe/Dublin:20261018T140000"
    read = found(tmp_path, repeats("FREQ=WEEKLY;UNTIL=20261101T140000Z", start))

    assert days(read) == [18, 25, 1]
    assert {item.fixture.kickoff.hour for item in read.listed} == {14}


def test_repeats_taken_out_or_moved_are_not_counted(tmp_path):
    moved = "UID:1\nRECURRENCE-ID;VALUE=DATE:20260912\nDTSTART;VALUE=DATE:20260913\nSUMMARY:League"
    read = found(
        tmp_path, repeats("FREQ=WEEKLY;COUNT=3", more="\nEXDATE;VALUE=DATE:20260919"), moved
    )

    assert days(read) == [5, 13]


@pytest.mark.parametrize(
    "rule",
    [
        "FREQ=WEEKLY",
        "FREQ=DAILY;COUNT=401",
        "FREQ=MONTHLY",
        "FREQ=MONTHLY;COUNT=3;BYDAY=1SU;BYMONTHDAY=31",
        "FREQ=YEARLY;COUNT=3",
        "FREQ=DAILY;INTERVAL=0;COUNT=2",
        "FREQ=DAILY;COUNT=2;BYMONTH=2;BYMONTHDAY=30",
        "FREQ=WEEKLY;COUNT=2;WKST=QQ",
        "FREQ=WEEKLY;COUNT=abc",
        "FREQ=WEEKLY;COUNT=3\nEXDATE:foo",
    ],
)
def test_a_rule_beyond_the_limits_is_refused_with_its_event(tmp_path, rule):
    with pytest.raises(InputError, match="event 1: must be one match"):
        found(tmp_path, repeats(rule))


def test_a_training_without_an_end_is_left_out_and_not_refused(tmp_path):
    read = found(tmp_path, day(5, "Training", more="RRULE:FREQ=WEEKLY"), day(12))

    assert days(read) == [12]
