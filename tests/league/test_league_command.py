import datetime as dt

import pytest
from click.testing import CliRunner

from cli.commands.league import league_command
from cli.files.scenario_file import read_scenario
from optimiser.league.league import make_league
from optimiser.league.settings import LeagueSettings


def run(*words):
    return CliRunner().invoke(league_command, [str(word) for word in words])


@pytest.mark.parametrize("clubs", [9, 12])
@pytest.mark.parametrize("congestion", ["none", "some", "heavy"])
def test_every_file_reads_back_as_the_season_that_was_made(tmp_path, clubs, congestion):
    told = run(
        "--clubs", clubs, "--start", "2026-06-15", "--congestion", congestion, "-o", tmp_path
    )
    made = make_league(
        LeagueSettings(clubs=clubs, start=dt.date(2026, 6, 15), congestion=congestion)
    )

    assert told.exit_code == 0, told.output
    files = sorted(tmp_path.glob("*.toml"))
    assert len(files) == clubs
    for path, season in zip(files, made, strict=True):
        loaded = read_scenario(path)
        assert list(loaded.season.fixtures) == season.fixtures
        assert list(loaded.scenario.breaks) == season.breaks
        assert not [week.number for week in loaded.season.weeks if week.closed and week.fixtures]


def test_it_says_what_it_wrote(tmp_path):
    told = run("--clubs", 6, "--start", "2026-06-15", "-o", tmp_path / "new" / "folder")

    assert told.stdout.startswith("Wrote 6 seasons of 52 weeks to ")


def test_files_that_are_there_stay_unless_forced(tmp_path):
    words = ("--clubs", 4, "--start", "2026-06-15", "-o", tmp_path)
    run(*words)
    before = {path: path.read_text() for path in tmp_path.iterdir()}

    again = run(*words, "--seed", 0)

    assert again.exit_code == 1
    assert "must not be there yet" in again.stderr
    assert {path: path.read_text() for path in tmp_path.iterdir()} == before
    assert run(*words, "--force").exit_code == 0


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--start", "2026-06-16"], "nearest Monday"),
        (["--start", "2026-06-15", "--clubs", 3], "4<=x"),
        (["--start", "2026-06-15", "--weeks", 14], "longer by"),
        (["--start", "2026-06-15", "--congestion", "mad"], "mad"),
        (["--start", "9999-12-31"], "must lie in the years 1900 to 2199"),
    ],
)
def test_wrong_options_are_told_without_writing(tmp_path, words, said):
    told = run(*words, "-o", tmp_path / "x")

    assert told.exit_code == 2
    assert said in told.stderr
    assert not (tmp_path / "x").exists()


def test_a_folder_that_cannot_be_made_is_told(tmp_path):
    (tmp_path / "file").write_text("")

    told = run("--start", "2026-06-15", "-o", tmp_path / "file" / "x")

    assert told.exit_code == 1
    assert "must be a file that can be read and written" in told.stderr
