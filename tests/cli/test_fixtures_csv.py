import datetime as dt

import pytest

from cli.files.errors import InputError
from cli.files.fixtures_csv import find_fixtures_csv
from cli.files.fixtures_found import ListFacts
from optimiser.domain.fixture import Priority


def read(tmp_path, text, encoding="utf-8"):
    path = tmp_path / "list.csv"
    path.write_text(text, encoding=encoding, newline="")
    return find_fixtures_csv(path, ListFacts()).listed


def refused(tmp_path, text):
    with pytest.raises(InputError) as caught:
        read(tmp_path, text)
    return caught.value.format_message()


def test_only_the_date_is_needed(tmp_path):
    (only,) = read(tmp_path, "date\n2026-09-05\n")

    assert only.fixture.date == dt.date(2026, 9, 5)
    assert only.fixture.priority is Priority.LOW
    assert only.where == "line 2"


def test_every_column_is_read_in_any_order(tmp_path):
    (only,) = read(
        tmp_path,
        "priority,minutes,venue,competition,opponent,kickoff,date,travel_hours\n"
        "High,60.5,Away,Cup,Old Dunmarrians,9:30,2026-09-05,1.5\n",
    )

    fixture = only.fixture
    assert (fixture.priority, fixture.venue) == (Priority.HIGH, "away")
    assert (fixture.minutes, fixture.travel_hours) == (60.5, 1.5)
    assert fixture.kickoff == dt.time(9, 30)


def test_semicolons_a_byte_order_mark_and_windows_line_ends_are_read(tmp_path):
    listed = read(
        tmp_path, "date;opponent\r\n2026-09-05;A, B\r\n\r\n;\r\n2026-09-12;C\r\n", "utf-8-sig"
    )

    assert [(item.fixture.opponent, item.where) for item in listed] == [
        ("A, B", "line 2"),
        ("C", "line 5"),
    ]


def test_a_cell_over_two_lines_keeps_the_line_count(tmp_path):
    listed = read(tmp_path, 'date,opponent\n2026-09-05,"A\nB"\n2026-09-12,C\n')

    assert [item.where for item in listed] == ["line 2", "line 4"]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "line 1: the first line must name the columns, date among them"),
        ("opponent\nA\n", "date among them (got opponent)"),
        ("date,oponent\n", "Did you mean opponent?"),
        ("date,date\n", "a column must come once"),
        ("date\n05/09/2026\n", "line 2, date: must be year-month-day such as 2026-09-05"),
        ("date\n2026-02-30\n", "line 2, date: must be a day that is in the calendar"),
        ("date,kickoff\n2026-09-05,25:00\n", "line 2, kickoff"),
        ('date,minutes\n2026-09-05,"62,5"\n', "Write 62.5"),
        ("date,minutes\n2026-09-05,-5\n", "line 2, minutes: must be greater than 0"),
        ("date,minutes\n2026-09-05,nan\n", "line 2, minutes"),
        ("date,priority\n2026-09-05,urgent\n", "line 2, priority: must be"),
        ("date,opponent\n2026-09-05,A,B\n", "line 2: must have at most 2 cells"),
        ('date,opponent\n2026-09-05,"A\n', "must be a CSV table"),
    ],
)
def test_what_cannot_be_read_is_told_with_its_line(tmp_path, text, told):
    assert told in refused(tmp_path, text)
