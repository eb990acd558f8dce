import datetime as dt

import pytest
from openpyxl import Workbook

from cli.files.errors import InputError
from cli.files.fixtures_csv import find_fixtures_csv
from cli.files.fixtures_file import read_fixtures_file
from cli.files.fixtures_found import ListFacts, found_words


def found(folder, text, encoding="utf-8", **asked):
    path = folder / "list.csv"
    path.write_bytes(text.encode(encoding))
    return find_fixtures_csv(path, ListFacts(**asked))


def fixtures(*args, **asked):
    return [item.fixture for item in found(*args, **asked).listed]


@pytest.mark.parametrize(
    "dates",
    [
        ("03/04/2026", "25/04/2026"),
        ("03.04.2026", "25.04.2026"),
        ("3/4/26", "25/4/26"),
        ("04/03/2026", "04/25/2026"),
        ("03-04-2026 15:00", "25-04-2026 15:00"),
        ("Fri 03/04/2026", "Sat 25/04/2026"),
        ("03-Apr-26", "25-Apr-26"),
        ("Fri 3rd April 2026 3pm", "Sat 25 Apr 2026 15:00"),
        ("2026/04/03", "2026/4/25"),
        ("20260403", "20260425"),
        ('"Friday, April 3, 2026"', "Apr 25th 2026 3:00 PM"),
    ],
)
def test_the_whole_column_tells_day_from_month(tmp_path, dates):
    read = fixtures(tmp_path, "Date\n" + "\n".join(dates) + "\n")

    assert [fixture.date for fixture in read] == [dt.date(2026, 4, 3), dt.date(2026, 4, 25)]


def test_the_order_that_was_taken_is_told_with_the_date_that_decides(tmp_path):
    told = found(tmp_path, "Date\n03/04/2026\n25/04/2026\n").notices

    assert told == ["dates are read day-first, as 25/04/2026 can only be read so"]
    assert found(tmp_path, "Date\n2026-04-03\n25/04/2026\n04/04/2026\n").notices == []


def test_a_column_that_reads_both_ways_is_refused_with_both(tmp_path):
    with pytest.raises(InputError, match=r"line 2, date.*2026-04-03 \(day-first\) or 2026-03-04"):
        found(tmp_path, "Date\n03/04/2026\n")


@pytest.mark.parametrize(("dates", "month"), [("day-first", 4), ("month-first", 3)])
def test_the_order_asked_for_decides(tmp_path, dates, month):
    assert fixtures(tmp_path, "Date\n03/04/2026\n", dates=dates)[0].date.month == month


def test_dates_of_two_orders_are_refused(tmp_path):
    with pytest.raises(InputError, match=r"line 2, date.*in one order"):
        found(tmp_path, "Date\n25/04/2026\n04/26/2026\n")


def test_against_the_order_asked_for_is_refused_with_its_line(tmp_path):
    with pytest.raises(InputError, match="line 2, date"):
        found(tmp_path, "Date\n25/04/2026\n", dates="month-first")


@pytest.mark.parametrize(
    ("cell", "hour"), [("3:00 PM", 15), ("3pm", 15), ("12:00 am", 0), ("15.00", 15), ("9:00", 9)]
)
def test_a_kickoff_of_twelve_hours_is_read(tmp_path, cell, hour):
    (only,) = fixtures(tmp_path, f"Date,KO\n2026-09-05,{cell}\n")

    assert only.kickoff == dt.time(hour)


@pytest.mark.parametrize("cell", ["13:00 pm", "0:00 am", "15", "half 2", "3:7"])
def test_a_kickoff_that_is_none_is_refused(tmp_path, cell):
    with pytest.raises(InputError, match="line 2, kickoff: must be a time"):
        found(tmp_path, f"Date,KO\n2026-09-05,{cell}\n")


@pytest.mark.parametrize(("cell", "time"), [("15:00", dt.time(15)), ("00:00:00", None)])
def test_a_time_after_the_date_is_the_kickoff(tmp_path, cell, time):
    assert fixtures(tmp_path, f"Date\n2026-09-05 {cell}\n")[0].kickoff == time


@pytest.mark.parametrize("sign", [",", ";", "\t"])
def test_words_of_every_day_name_the_columns(tmp_path, sign):
    head = sign.join(["DATE", "Kick-off", "Opposition", "H/A", "Competition"])
    row = sign.join(["2026-09-05", "15:00", "Ferrow Hill", "A", "Cup"])

    (only,) = fixtures(tmp_path, f"{head}\n{row}\n")

    assert (only.opponent, only.venue, only.competition) == ("Ferrow Hill", "away", "Cup")
    assert only.kickoff == dt.time(15)


def test_a_line_that_names_the_separator_and_a_title_are_passed_over(tmp_path):
    read = found(tmp_path, "sep=;\nFixtures, first team\n\nDate;Opponent\n2026-09-05;A, B\n")

    assert read.listed[0].fixture.opponent == "A, B"
    assert read.listed[0].where == "line 5"


def test_a_column_that_is_not_known_is_named_and_left_out(tmp_path):
    read = found(tmp_path, "Date,Referee\n2026-09-05,Nobody\n")

    assert len(read.listed) == 1
    assert "Referee" in found_words("list.csv", read)[-1]


@pytest.mark.parametrize("encoding", ["cp1252", "utf-16", "utf-8-sig"])
def test_text_is_read_in_the_encodings_of_spreadsheets(tmp_path, encoding):
    (only,) = fixtures(tmp_path, "Date,Opponent\n2026-09-05,Sûrmont\n", encoding)

    assert only.opponent == "Sûrmont"


def test_rows_that_are_no_matches_are_left_out_with_their_reason(tmp_path):
    read = found(
        tmp_path,
        "Date,Opponent,Status\n2026-09-05,Training,\n2026-09-06,Ferrow Hill,Postponed\n"
        "2026-09-12,Camp Hill,\n2026-09-19,Practice match,\n",
    )

    words = found_words("list.csv", read)

    assert words[0] == "list.csv: 4 rows: 2 matches, 1 training left out, 1 postponed"
    assert "  line 2 (Training): left out, a training or a meeting" in words


def test_a_workbook_is_read(tmp_path):
    book = Workbook()
    book.active.append(["First team"])
    book.active.append(["Date", "KO", "Opponent"])
    book.active.append([dt.datetime(2026, 9, 5), dt.time(15), "Ferrow Hill"])
    book.save(tmp_path / "list.xlsx")

    (only,) = read_fixtures_file(tmp_path / "list.xlsx")

    assert (only.fixture.kickoff, only.where) == (dt.time(15), "row 3")


def test_what_is_no_workbook_is_refused(tmp_path):
    (tmp_path / "list.xlsx").write_bytes(b"PK nothing")

    with pytest.raises(InputError, match="must be a workbook"):
        read_fixtures_file(tmp_path / "list.xlsx")


def test_grounds_in_the_venue_column_are_left_out_with_a_notice(tmp_path):
    read = found(tmp_path, "Date,Venue\n2026-09-05,Ferrow Park\n")

    assert read.listed[0].fixture.venue == ""
    assert "venue is left out" in read.notices[0]


def test_a_ground_among_venues_is_left_open_and_named(tmp_path):
    read = found(tmp_path, "Date,Venue\n2026-09-05,H\n2026-09-12,Ferrow Park\n2026-09-19,TBC\n")

    assert [item.fixture.venue for item in read.listed] == ["home", "", ""]
    assert read.notices == ["not said to be home, away or neutral, so left open: Ferrow Park"]


@pytest.mark.parametrize(
    "date", ["31 Feb 2026", "5 Xyz 2026", "05092026", "2026-09-05 15", "30/02/26", "May 32 2026"]
)
def test_a_date_that_is_none_is_refused_with_its_line(tmp_path, date):
    with pytest.raises(InputError, match="line 2, date: must be year-month-day"):
        found(tmp_path, f"Date\n{date}\n")


def test_moments_are_turned_into_the_zone_asked_for(tmp_path):
    text = "date,opponent\n2026-09-05T23:30:00Z,A\n2026-09-12 15:00:00.000+00:00,B\n"

    here = found(tmp_path, text, zone="Europe/Dublin")
    there = found(tmp_path, text)

    assert [(item.fixture.date.day, item.fixture.kickoff.hour) for item in here.listed] == [
        (6, 0), (12, 16),
    ]  # fmt: skip
    assert [item.fixture.date.day for item in there.listed] == [5, 12]
    assert "UTC" in there.notices[-1]
    assert here.notices == []


def test_a_week_without_an_opponent_is_no_match(tmp_path):
    read = found(tmp_path, "Date,Opponent,Time (local)\n2026-09-05,Bye,\n2026-09-12,Bye Park,3pm\n")

    assert [item.fixture.opponent for item in read.listed] == ["Bye Park"]
    assert read.listed[0].fixture.kickoff == dt.time(15)
    assert read.left_out[0].kind == "nobody"


def test_a_column_of_dates_is_found_under_any_name(tmp_path):
    text = "Spielplan\n\nTag;Zeit;Gegner;Ort\n05.09.26;14:00;Nord;Platz 2\n19.09.26;16:30;Süd;\n"

    read = fixtures(tmp_path, text, "cp1252")

    assert [(f.date, f.kickoff, f.opponent) for f in read] == [
        (dt.date(2026, 9, 5), dt.time(14), "Nord"),
        (dt.date(2026, 9, 19), dt.time(16, 30), "Süd"),
    ]


def test_a_named_date_goes_before_a_column_of_days(tmp_path):
    assert len(fixtures(tmp_path, "Date,Day,Time\n8/29/2026,Sat,7:00 PM\n9/5/2026,Sat,3 PM\n")) == 2


def test_a_list_of_home_and_away_with_one_club_in_every_row_is_its_own(tmp_path):
    rows = ["Date,Home,Away", "2026-10-10,Karaka,Town 1", "2026-10-17,Town 2,Karaka"]

    read = fixtures(tmp_path, "\n".join([*rows, "2027-03-20,Karaka,TBC", ""]))

    assert [(f.opponent, f.venue) for f in read] == [
        ("Town 1", "home"), ("Town 2", "away"), ("TBC", "home"),
    ]  # fmt: skip


@pytest.mark.parametrize("ending", [".txt", ".tsv"])
def test_tables_of_tabs_are_read_under_the_endings_they_have(tmp_path, ending):
    path = tmp_path / f"list{ending}"
    path.write_text("Fixture\tDate\tKick-off\nA v B\t31/10/2026\t7:45 PM\n", encoding="utf-16")

    [item] = read_fixtures_file(path)

    assert (item.fixture.date, item.fixture.kickoff) == (dt.date(2026, 10, 31), dt.time(19, 45))


def test_the_name_of_a_break_between_matches_names_no_columns(tmp_path):
    text = (
        "Fixtures 2026/27;;;\nNr;Beginn am;Gegner;Runde\n1;Sat 05.09.2026;Kőszeg;3\n"
        ";;;Winter break\n2;Sat 16.01.2027;Łódź;4\n"
    )

    told = found(tmp_path, text)

    assert [item.fixture.opponent for item in told.listed] == ["Kőszeg", "Łódź"]
    assert [left.name for left in told.left_out] == ["Winter break"]
