"""A changed season is written into its own files, and all else in them stays."""

import datetime as dt

import pytest

from cli.files.scenario_file import read_scenario
from cli.season.rewrite import rewritten
from optimiser.domain.edits import Add, Close, Drop, Move, Rank, RuleOff, Set
from tests.season.conftest import FIXTURES, SEASON

FINAL, CUP = dt.date(2027, 4, 10), dt.date(2027, 3, 27)


@pytest.fixture
def loaded(tmp_path):
    (tmp_path / "fixtures.csv").write_text(FIXTURES)
    (tmp_path / "season.toml").write_text(SEASON)
    return read_scenario(tmp_path / "season.toml")


def differing(before, after):
    pairs = zip(before.splitlines(), after.splitlines(), strict=True)
    return [(was, now) for was, now in pairs if was != now]


def test_a_moved_match_changes_one_cell_of_its_row(loaded):
    made = rewritten(loaded, [Move(date=FINAL, to=dt.date(2027, 4, 9))])

    assert differing(FIXTURES, made.files["fixtures.csv"].decode()) == [
        (
            '2027-04-10,15:00,"Dunmere, the old ground",high,',
            '2027-04-09,15:00,"Dunmere, the old ground",high,',
        )
    ]
    assert made.files["season.toml"].decode() == SEASON


def test_matches_are_added_and_dropped_as_rows_with_the_columns_of_the_list(loaded):
    new = Add(date=dt.date(2027, 3, 31), opponent="Ellerby", priority="medium")

    text = rewritten(loaded, [Drop(date=CUP), new]).files["fixtures.csv"].decode()

    rows = FIXTURES.splitlines()
    assert text.splitlines() == [*rows[:2], *rows[3:], "2027-03-31,,Ellerby,medium,"]


def test_a_rule_and_a_break_leave_comments_where_they_were(loaded):
    edits = [
        Set(rule="deload", parameter="every", value=6),
        Close(first=dt.date(2027, 2, 15), last=dt.date(2027, 2, 21)),
    ]

    text = rewritten(loaded, edits).files["season.toml"].decode()

    assert "# Kept by the lead" in text
    assert "every = 6" in text
    assert 'fixtures_file = "fixtures.csv"  # ask the secretary' in text
    assert "[[breaks]]" in text


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        ("Date;Gegner\n20/03/2027;Ashdale\n10/04/2027;Dunmere\n", "09/04/2027;Dunmere"),
        ("date\topponent\r\n20 Mar 2027\tAshdale\r\n10 Apr 2027\tDunmere\r\n", "09 Apr 2027\t"),
        ("date,opponent\n2027-03-20 15:00,Ashdale\n2027-04-10 18:30,Dunmere\n", "2027-04-09 18:30"),
    ],
)
def test_dates_are_written_as_the_list_writes_them(tmp_path, rows, expected):
    (tmp_path / "fixtures.csv").write_text(rows, newline="")
    priorities = '[priorities]\n2027-04-10 = "high"  # the final\n'
    (tmp_path / "season.toml").write_text(f"{SEASON.split('[rules')[0]}{priorities}")
    loaded = read_scenario(tmp_path / "season.toml")

    made = rewritten(loaded, [Move(date=FINAL, to=dt.date(2027, 4, 9))])

    assert expected in made.files["fixtures.csv"].decode()
    assert '2027-04-09 = "high"' in made.files["season.toml"].decode()


def test_matches_of_one_day_move_together(tmp_path):
    rows = "date,opponent\n2027-03-20,Ashdale\n2027-04-10,Dunmere\n2027-04-10,Ellerby\n"
    (tmp_path / "fixtures.csv").write_text(rows)
    (tmp_path / "season.toml").write_text(SEASON.split("[rules")[0])
    loaded = read_scenario(tmp_path / "season.toml")

    made = rewritten(loaded, [Move(date=FINAL, to=dt.date(2027, 4, 9))])

    assert made.files["fixtures.csv"].decode() == rows.replace("2027-04-10", "2027-04-09")


def test_a_calendar_feed_becomes_a_list_that_can_be_edited(tmp_path):
    feed = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:x"]
    for number, day in enumerate(("20270320", "20270410")):
        feed += ["BEGIN:VEVENT", f"UID:{number}", f"DTSTART;VALUE=DATE:{day}"]
        feed += [f"SUMMARY:Against Ashdale {number}", "END:VEVENT"]
    (tmp_path / "matches.ics").write_text("\r\n".join([*feed, "END:VCALENDAR", ""]))
    text = SEASON.split("[rules")[0].replace("fixtures.csv", "matches.ics")
    (tmp_path / "season.toml").write_text(f'{text}[priorities]\n2027-04-10 = "high"\n')

    made = rewritten(read_scenario(tmp_path / "season.toml"), [Rank(date=FINAL, priority="medium")])

    assert set(made.files) == {"season.toml", "fixtures.csv"}
    assert "matches.ics cannot be edited here" in made.notes[0]


def test_a_changed_season_beside_the_old_one_names_files_that_are_there(loaded, tmp_path):
    there = tmp_path / "plans"
    there.mkdir()
    dropped = rewritten(loaded, [RuleOff(rule="deload")], there / "b.toml")
    moved = rewritten(loaded, [Move(date=FINAL, to=dt.date(2027, 4, 9))], there / "c.toml")

    for made in (dropped, moved):
        for name, data in made.files.items():
            (there / name).write_bytes(data)

    assert read_scenario(there / "b.toml").digest == dropped.loaded.digest
    assert read_scenario(there / "c.toml").digest == moved.loaded.digest
    assert (tmp_path / "fixtures.csv").read_text() == FIXTURES


def test_a_list_that_is_not_read_cell_by_cell_is_replaced_by_one_that_is(tmp_path):
    head = 'name = "S"\nfirst_monday = 2026-08-31\nweeks = 4\nfixtures_file = "fixtures.csv"\n'
    (tmp_path / "season.toml").write_text(head)
    rows = ["Date,Match", "2026-09-05,Ashby v Inch", "2026-09-12,Inch v Carrick", ""]
    (tmp_path / "fixtures.csv").write_text("\n".join(rows))

    done = rewritten(
        read_scenario(tmp_path / "season.toml"),
        [Move(date=dt.date(2026, 9, 12), to=dt.date(2026, 9, 13))],
    )

    assert "2026-09-13,,Carrick,,home" in done.files["matches.csv"].decode()
    assert 'fixtures_file = "matches.csv"' in done.files["season.toml"].decode()
    assert "matches.csv" in done.notes[0]
