import datetime as dt
import re

import pytest
from click.testing import CliRunner

from cli.commands.new import new_command
from cli.files.scenario_file import read_scenario
from optimiser.domain.season import Phase


def dates_csv(folder, dates, head="date,opponent", tail=",Ferrow Hill"):
    path = folder / "matches.csv"
    path.write_text("\n".join([head, *(f"{date}{tail}" for date in dates)]) + "\n")
    return path


def run(folder, *options, fixtures="matches.csv"):
    arguments = ["--fixtures", str(folder / fixtures), "-o", str(folder / "season.toml"), *options]
    return CliRunner().invoke(new_command, arguments)


def made(folder, dates, *options):
    dates_csv(folder, dates)
    result = run(folder, *options)
    assert result.exit_code == 0, result.output
    return read_scenario(folder / "season.toml")


def phases(loaded):
    return [week.phase for week in loaded.season.weeks]


def test_a_season_starts_ten_weeks_before_the_first_match(tmp_path):
    loaded = made(tmp_path, ["2026-09-12", "2026-09-19"])

    assert loaded.scenario.first_monday == dt.date(2026, 6, 29)
    assert phases(loaded) == [Phase.OFF] * 4 + [Phase.PRE] * 6 + [Phase.IN] * 2


def test_a_first_monday_given_leaves_pre_season_what_room_there_is(tmp_path):
    loaded = made(tmp_path, ["2026-09-12"], "--first-monday", "2026-08-17", "--weeks", "6")

    assert phases(loaded) == [Phase.PRE] * 3 + [Phase.IN] + [Phase.OFF] * 2


def test_weeks_of_build_up_can_be_asked_for(tmp_path):
    loaded = made(tmp_path, ["2026-09-12"], "--off-season-weeks", "0", "--pre-season-weeks", "2")

    assert phases(loaded) == [Phase.PRE] * 2 + [Phase.IN]


def test_without_a_ranked_match_the_last_becomes_high_and_the_file_says_so(tmp_path):
    loaded = made(tmp_path, ["2026-09-19", "2026-09-12"])

    assert [fixture.priority for fixture in loaded.season.fixtures] == ["low", "high"]
    assert "the last one was made high" in (tmp_path / "season.toml").read_text()


def test_a_ranked_list_is_left_as_it_is(tmp_path):
    dates_csv(tmp_path, ["2026-09-12"], "date,priority", ",medium")

    run(tmp_path)

    loaded = read_scenario(tmp_path / "season.toml")
    assert loaded.scenario.priorities == {}
    assert [fixture.priority for fixture in loaded.season.fixtures] == ["medium"]


def test_a_year_of_tournaments_rests_and_builds_between_them(tmp_path):
    first, second = dt.date(2027, 3, 4), dt.date(2027, 6, 24)
    days = [start + dt.timedelta(days=day) for start in (first, second) for day in range(4)]

    loaded = made(tmp_path, days)

    expected = [Phase.OFF] * 4 + [Phase.PRE] * 6 + [Phase.IN]
    expected += [Phase.OFF] * 11 + [Phase.PRE] * 4 + [Phase.IN]
    assert phases(loaded) == expected


def test_two_matches_a_week_all_year_are_one_long_season(tmp_path):
    start = dt.date(2026, 1, 7)
    days = [start + dt.timedelta(weeks=week, days=day) for week in range(52) for day in (0, 3)]

    loaded = made(tmp_path, days)

    assert phases(loaded)[10:] == [Phase.IN] * 52
    assert all(len(week.fixtures) == 2 for week in loaded.season.weeks[10:])


def test_a_season_across_a_week_53_skips_no_week(tmp_path):
    loaded = made(tmp_path, ["2026-12-20", "2026-12-28", "2027-01-03", "2027-01-09"])

    last = loaded.season.weeks[-4:]
    assert [week.monday.isocalendar().week for week in last] == [51, 52, 53, 1]
    assert [len(week.fixtures) for week in last] == [1, 0, 2, 1]


def test_the_fixtures_are_found_from_another_folder(tmp_path):
    dates_csv(tmp_path, ["2026-09-12"])
    (tmp_path / "plans").mkdir()
    output = tmp_path / "plans" / "s.toml"

    result = CliRunner().invoke(
        new_command, ["--fixtures", str(tmp_path / "matches.csv"), "-o", str(output)]
    )

    assert result.exit_code == 0
    assert read_scenario(output).scenario.fixtures_file == "../matches.csv"


def test_any_name_reads_back(tmp_path):
    name = 'The "Old" \\ Boys\tXI \x7f é'

    loaded = made(tmp_path, ["2026-09-12"], "--name", name, "--sport", "hockey")

    assert (loaded.season.name, loaded.season.sport) == (name, "hockey")


def test_a_file_that_is_there_is_kept(tmp_path):
    dates_csv(tmp_path, ["2026-09-12"])
    (tmp_path / "season.toml").write_text("mine")

    result = run(tmp_path)

    assert result.exit_code == 1
    assert "--force" in result.output
    assert (tmp_path / "season.toml").read_text() == "mine"
    assert run(tmp_path, "--force").exit_code == 0


@pytest.mark.parametrize(
    ("options", "code", "told"),
    [
        (["--first-monday", "2026-08-18"], 2, "the nearest is 2026-08-17"),
        (["--first-monday", "2026-09-14"], 1, "must not come before the first Monday"),
        (["--weeks", "3"], 1, "ask for 11 weeks"),
        (["--weeks", "0"], 2, "--weeks"),
        (["--first-monday", "9999-12-31"], 2, "must lie in the years 1900 to 2199"),
    ],
)
def test_a_frame_that_does_not_fit_is_refused_and_nothing_written(tmp_path, options, code, told):
    dates_csv(tmp_path, ["2026-09-12"])

    result = run(tmp_path, *options)

    assert result.exit_code == code
    assert told.lower() in result.output.lower()
    assert [path.name for path in tmp_path.iterdir()] == ["matches.csv"]


@pytest.mark.parametrize(
    ("dates", "told"),
    [
        (["0001-01-02"], "must lie in the years 1900 to 2199 (got 0001-01-02)"),
        (["2026-09-12", "2126-09-12"], "must come within 260 weeks"),
        ([], "at least one fixture"),
    ],
)
def test_a_list_that_makes_no_season_is_refused(tmp_path, dates, told):
    dates_csv(tmp_path, dates)

    result = run(tmp_path)

    assert result.exit_code == 1
    assert told in result.output


def test_a_calendar_file_makes_a_season_too(tmp_path):
    event = "BEGIN:VEVENT\r\nUID:1\r\nDTSTART;VALUE=DATE:20260912\r\nSUMMARY:A\r\nEND:VEVENT\r\n"
    head = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Testers//EN\r\n"
    (tmp_path / "list.ics").write_text(f"{head}{event}END:VCALENDAR\r\n", newline="")

    result = run(tmp_path, fixtures="list.ics")

    assert result.exit_code == 0
    assert len(read_scenario(tmp_path / "season.toml").season.fixtures) == 1


def test_the_output_must_be_a_scenario_and_not_the_fixture_list(tmp_path):
    path = dates_csv(tmp_path, ["2026-09-12"])

    result = CliRunner().invoke(new_command, ["--fixtures", str(path), "-o", str(path), "--force"])

    assert result.exit_code == 2
    assert path.read_text().startswith("date")


def test_what_the_file_hints_at_reads_back_too(tmp_path):
    made(tmp_path, ["2026-09-12", "2026-09-19"])
    path = tmp_path / "season.toml"
    lines = path.read_text().splitlines()
    hints = [line.removeprefix("# ") if is_hint(line) else line for line in lines]

    path.write_text("\n".join(hints) + "\n")

    loaded = read_scenario(path)
    assert loaded.season.sport == "hockey"
    assert loaded.season.weeks[0].closed


def is_hint(line):
    return line.startswith("# [") or re.match(r"# \w+ = ", line) is not None


def test_the_order_of_dates_asked_for_is_kept_in_the_scenario(tmp_path):
    dates_csv(tmp_path, ["05/09/2026", "12/09/2026"], "Date,Opponent")

    assert "--dates" in run(tmp_path).output
    result = run(tmp_path, "--dates", "day-first")

    assert result.exit_code == 0, result.output
    loaded = read_scenario(tmp_path / "season.toml")
    assert [fixture.date.day for fixture in loaded.season.fixtures] == [5, 12]
    assert loaded.scenario.fixtures_file is None


def test_what_was_understood_is_told_on_stderr(tmp_path):
    path = dates_csv(tmp_path, ["2026-09-12"])
    path.write_text(path.read_text() + "2026-09-15,Training\n")

    result = run(tmp_path)

    assert "matches.csv: 2 rows: 1 match, 1 training left out" in result.stderr
    assert "line 3 (Training): left out" in result.stderr
    assert "Training" not in result.stdout


def test_odd_names_of_columns_leave_a_scenario_that_reads(tmp_path):
    path, output = tmp_path / "odd.csv", tmp_path / "odd.toml"
    path.write_text('date,"Re\x07f\nree"\n2026-09-05,Nobody\n')

    result = CliRunner().invoke(new_command, ["--fixtures", str(path), "-o", str(output)])

    assert result.exit_code == 0, result.output
    assert "not known: Ref ree" in output.read_text()


def test_a_zone_that_is_none_is_refused(tmp_path):
    dates_csv(tmp_path, ["2026-09-12"])

    result = run(tmp_path, "--zone", "Mars/Olympus")

    assert result.exit_code == 2
    assert "must be the name of a time zone" in result.output


def test_only_what_has_the_text_goes_into_the_scenario(tmp_path):
    path = dates_csv(tmp_path, ["2026-09-12"])
    path.write_text(path.read_text() + "2026-09-19,U16 Saltmere\n")

    assert run(tmp_path, "--match", "ferrow").exit_code == 0
    assert len(read_scenario(tmp_path / "season.toml").season.fixtures) == 1


def test_every_field_of_a_match_reads_back_from_the_scenario(tmp_path):
    head = "date,kickoff,opponent,competition,venue,priority,minutes,travel_hours"
    dates_csv(tmp_path, ["2026-09-12"], head, ',9:30,"A ""B"" \\",Cup,H,high,60,1.5')

    assert run(tmp_path).exit_code == 0
    filed = read_scenario(tmp_path / "season.toml").season.fixtures
    assert run(tmp_path, "--force", "--dates", "day-first").exit_code == 0

    loaded = read_scenario(tmp_path / "season.toml")
    assert loaded.season.fixtures == filed
    assert loaded.scenario.fixtures_file is None


@pytest.mark.parametrize(
    ("file", "head", "cells", "name"),
    [
        ("f.csv", "date,opponent", "{date},Ash", "Season 2026/27"),
        ("fixtures-2026-27.csv", "date,opponent", "{date},Ash", "Season 2026/27"),
        ("oakhurst_first_team.csv", "date,opponent", "{date},Ash", "Oakhurst first team"),
        ("f.csv", "date,home,away", "{date},Oakhurst,Ash", "Oakhurst"),
        ("f.csv", "date,our team,opponent", "{date},Oakhurst Women,Ash", "Oakhurst Women"),
    ],
)
def test_a_season_is_named_by_what_the_list_tells(tmp_path, file, head, cells, name):
    dates = ["2026-09-12", "2026-10-03", "2027-02-06"]
    rows = [cells.format(date=date).replace("Ash", ("Ash", "Elm", "Fir")[at])
            for at, date in enumerate(dates)]  # fmt: skip
    (tmp_path / file).write_text("\n".join([head, *rows]))
    output = tmp_path / "season.toml"
    args = ["--fixtures", str(tmp_path / file), "-o", str(output)]

    assert CliRunner().invoke(new_command, args).exit_code == 0
    assert read_scenario(output).season.name == name
