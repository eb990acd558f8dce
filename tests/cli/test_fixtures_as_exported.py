import datetime as dt

import pytest
from openpyxl import Workbook

from cli.files.errors import InputError
from cli.files.fixtures_csv import find_fixtures_csv
from cli.files.fixtures_file import find_fixtures, read_fixtures_file
from cli.files.fixtures_found import ListFacts, found_words
from cli.files.fixtures_whole_dates import whole_dates
from optimiser.domain.fixture import Priority


def found(folder, text, name="list.csv", **asked):
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return find_fixtures_csv(path, ListFacts(**asked))


def fixtures(*args, **asked):
    return [item.fixture for item in found(*args, **asked).listed]


@pytest.mark.parametrize(
    ("names", "row"),
    [
        ("Date,Opp,Where,KO,Comp", "2026-09-05,Ashby,A,3pm,Cup"),
        ("Date,Versus,H/A/N,Throw In,League", "2026-09-05,v Ashby,Away,15h00,Cup"),
        ("When,Team,Location,Centre Pass,Event", "5.9.2026,Ashby,away,1500,Cup"),
        ("Date,Opponent,V,Time,Type", "2026-09-05,Ashby,A,15:00 Uhr,Cup"),
        ("Date,Opposition,Push back,Comp.", "2026-09-05,at Ashby,0.625,Cup"),
        ("Fecha,Rival,Hora,Competición", "5 de septiembre de 2026,Ashby (A),15h,Cup"),
        ("Datum,Gegner,Anstoß,Wettbewerb,Ort", "Sa. 05.09.2026,Ashby,15 Uhr,Cup,auswärts"),
    ],
)
def test_headings_of_every_day_say_one_match(tmp_path, names, row):
    (only,) = fixtures(tmp_path, f"{names}\n{row}\n", dates="day-first")

    assert (only.date, only.kickoff) == (dt.date(2026, 9, 5), dt.time(15))
    assert (only.opponent, only.venue, only.competition) == ("Ashby", "away", "Cup")


def test_both_sides_in_one_cell_are_an_opponent_and_a_venue(tmp_path):
    rows = ["Date,Fixture", "2026-09-05,Ashby v Inch", "2026-09-12,Inch 2 - 1 Carrick"]

    read = found(tmp_path, "\n".join([*rows, "2026-09-19,Dunmore vs. Inch", ""]))

    told = [(item.fixture.opponent, item.fixture.venue) for item in read.listed]
    assert told == [("Ashby", "away"), ("Carrick", "home"), ("Dunmore", "away")]
    assert read.apart


def test_months_as_headings_and_names_repeated_give_whole_dates(tmp_path):
    text = (
        "First team 2026/27\nDECEMBER\nDay,Date,Opponents\nSat,5,A\nSat,19th,Bye\n\nJANUARY\n"
        "Day,Date,Opponents\nSat,2,B\nTotal,,2 matches\n"
    )

    read = found(tmp_path, text)

    assert [item.fixture.date for item in read.listed] == [
        dt.date(2026, 12, 5), dt.date(2027, 1, 2),
    ]  # fmt: skip
    assert "2 weeks" not in found_words("list.csv", read)[0]
    assert any("read as 2026 and 2027" in notice for notice in read.notices)


@pytest.mark.parametrize(
    ("weekday", "year"), [("Sat", 2026), ("Sun", 2027), ("Fri", 2025)]
)  # 5 September
def test_days_of_the_week_tell_the_year(tmp_path, weekday, year):
    given = [("line 2", {"date": f"{weekday} 5th Sep"}), ("line 3", {"date": "12/9"})]

    rows, told = whole_dates(tmp_path, given, [], ListFacts(), dt.date(2026, 7, 1))

    assert [cells["date"][-10:] for _, cells in rows] == [f"{year}-09-05", f"{year}-09-12"]
    assert "days of the week" in told[0]


def test_the_year_is_asked_for_where_nothing_tells_it(tmp_path):
    with pytest.raises(InputError, match=r"line 2, date: must have a year.*--year"):
        found(tmp_path, "Date\n5 Sep\n")
    assert fixtures(tmp_path, "Date\n5 Nov\n5 Feb\n", year=2026)[1].date == dt.date(2027, 2, 5)


@pytest.mark.parametrize(
    ("cell", "days"),
    [("5-7 June 2027", 3), ("31 July – 1 August 2027", 2), ('"June 5-6, 2027"', 2)],
)
def test_a_date_of_several_days_is_a_match_on_each(tmp_path, cell, days):
    read = found(tmp_path, f"Dates,Tournament\n{cell},Summer Cup\n")

    assert len({item.fixture.date for item in read.listed}) == days
    assert "a match on each" in read.notices[0]


def test_a_later_kickoff_without_a_date_is_of_the_day_above(tmp_path):
    read = found(tmp_path, "Date,KO,Opp\n2026-09-05,10:00,A1\n,12:00,B1\n,,Final\nTBC,9:00,C1\n")

    assert [item.fixture.date.day for item in read.listed] == [5, 5]
    assert [item.kind for item in read.left_out] == ["undated", "undated"]


def test_a_list_without_names_of_columns_is_read_by_what_it_holds(tmp_path):
    read = found(tmp_path, "05/09/2026,Ashby,H,15:00\n26/09/2026,Carrick,A,\n")

    assert [(item.fixture.opponent, item.fixture.venue) for item in read.listed] == [
        ("Ashby", "home"), ("Carrick", "away"),
    ]  # fmt: skip
    assert "no line names the columns" in read.notices[0]


@pytest.mark.parametrize("row", ["P-P,", "15:00,PPD", "15:00,W/O", "Postponed,"])
def test_what_stands_for_a_time_or_a_result_says_that_a_match_is_off(tmp_path, row):
    read = found(tmp_path, f"Date,KO,Result\n2026-09-05,{row}\n2026-09-12,14:00,2-1\n")

    assert [item.fixture.date.day for item in read.listed] == [12]


def test_days_of_the_week_tell_day_from_month_and_a_wrong_one_is_named(tmp_path):
    assert fixtures(tmp_path, "Day,Date\nFri,03/04/2026\n")[0].date == dt.date(2026, 4, 3)

    told = found(tmp_path, "Day,Date\nSat,13/04/2026\n").notices

    assert any("line 2 (2026-04-13 is a Monday)" in notice for notice in told)


def test_several_teams_in_one_list_are_pointed_out_and_kept_apart(tmp_path):
    text = "Team,Date,Opponent\n1st XI,2026-09-05,A1\n2nd XI,2026-09-05,B1\n"

    assert "`--match '1st XI'` keeps one team's" in found(tmp_path, text).notices[0]
    assert [f.opponent for f in fixtures(tmp_path, text, match="2nd")] == ["B1"]


def test_a_kickoff_in_words_is_left_open_and_named(tmp_path):
    read = found(tmp_path, "Date,KO\n2026-09-05,after the seconds\n2026-09-12,TBC\n")

    assert [item.fixture.kickoff for item in read.listed] == [None, None]
    assert read.notices == ["no time, so the kick-off is left open: after the seconds (line 2)"]


def test_the_sheet_with_the_dates_is_read(tmp_path):
    book = Workbook()
    book.active.append(["Fixture book 2026/27"])
    sheet = book.create_sheet("Fixtures")
    sheet.append(["Date", "Home", "", "Away", "", "note"])
    sheet.append(["05.09.2026", "Moor End", "v", "Ashby"])
    sheet.append(["26.09.2026", "Carrick", "v", "Moor End", "", "", "late"])
    book.save(tmp_path / "list.xlsx")

    read = read_fixtures_file(tmp_path / "list.xlsx")

    assert [item.fixture.opponent for item in read] == ["Ashby", "Carrick"]


def test_a_round_in_capitals_is_proposed_as_what_it_stands_for(tmp_path):
    from cli.files.fixtures_priorities import proposals

    read = fixtures(tmp_path, "Date,Comp,Round\n2026-09-05,Cup,QF\n2026-09-12,Shield,SF\n")

    assert [item.priority for item in proposals(read)] == [Priority.MEDIUM, Priority.HIGH]


def test_a_list_of_nothing_but_undated_rows_says_so(tmp_path):
    (tmp_path / "list.csv").write_text("date,opponent\n,Ashby\n")

    with pytest.raises(InputError, match="1 row left out: has no date yet"):
        find_fixtures(tmp_path / "list.csv", ListFacts())


@pytest.mark.parametrize(
    ("cell", "time"),
    [("2.30", (14, 30)), ("03:00:00", (15, 0)), ("3:00 am", (3, 0)), ("7.15 - 8:45", (7, 15))],
)
def test_a_kickoff_in_the_small_hours_is_in_the_afternoon_unless_it_says_so(tmp_path, cell, time):
    assert fixtures(tmp_path, f"Date,KO\n2026-09-05,{cell}\n")[0].kickoff == dt.time(*time)


def test_results_among_times_notes_and_rows_listed_twice_are_passed_over(tmp_path):
    rows = ["Date,Opp,Time / Result,Anything", 'Sep 05 2026 (Sat),at Ashby,"W, 12-10",']
    rows += ["Sep 12 2026 (Sat),Inch,7:00 PM,", "Sep 12 2026 (Sat),Inch,7:00 PM,"]

    read = found(tmp_path, "\n".join([*rows, "Sep 19 2026,B,,Cancelled", "Updated 1/8/26,,,", ""]))

    assert [(item.fixture.date.day, item.fixture.venue) for item in read.listed] == [
        (5, "away"), (12, ""),
    ]  # fmt: skip
    assert sorted(item.kind for item in read.left_out) == ["cancelled", "heading", "twice"]


@pytest.mark.parametrize(
    ("head", "rows"),
    [
        ("Year,Month,Day,Opponent", ["2026,8,15,Ash", "2026,9,5,Elm"]),
        ("Opponent,Day,Month,Year", ["Ash,15,08,26", "Elm,5th,9,26"]),
        ("Day;Month;Year;Opponent", ["15;Aug;2026;Ash", "5;September;2026;Elm"]),
        ("Tag;Monat;Jahr;Gegner", ["15;August;2026;Ash", "5;Sept.;2026;Elm"]),
    ],
)
def test_a_date_may_stand_in_columns_for_year_month_and_day(tmp_path, head, rows):
    path = tmp_path / "list.csv"
    path.write_text("\n".join([head, *rows]))
    found = find_fixtures(path, ListFacts())

    dates = [(each.fixture.date.isoformat(), each.fixture.opponent) for each in found.listed]
    assert dates == [("2026-08-15", "Ash"), ("2026-09-05", "Elm")]
    assert any("dates are read from the columns" in notice for notice in found.notices)
    assert found.apart
