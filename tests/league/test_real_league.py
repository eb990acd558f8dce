import datetime as dt

import pytest
from click.testing import CliRunner

from cli.files.scenario_file import read_scenario
from cli.main import main

LIST = """\
Date,Home Team,Away Team,Competition
05/09/2026,Redlow,Pinmoor,League
12/09/2026,Pinmoor,Tolland Vale,League
19/09/2026,Tolland Vale,Redlow,League
26/09/2026,Redlow,Tolland Vale,Cup final
"""


@pytest.fixture
def fixtures(tmp_path):
    path = tmp_path / "league.csv"
    path.write_text(LIST)
    return path


def run(*words):
    return CliRunner().invoke(main, [str(word) for word in words])


def test_one_club_has_its_matches_at_home_and_away(fixtures, tmp_path):
    told = run("new", "--fixtures", fixtures, "--club", "redlow", "-o", tmp_path / "own.toml")

    assert told.exit_code == 0, told.output
    assert "league.csv: 4 rows: 3 matches, 1 of other clubs passed over" in told.stderr
    matches = read_scenario(tmp_path / "own.toml").season.fixtures
    assert [(match.date, match.opponent, match.venue) for match in matches] == [
        (dt.date(2026, 9, 5), "Pinmoor", "home"),
        (dt.date(2026, 9, 19), "Tolland Vale", "away"),
        (dt.date(2026, 9, 26), "Tolland Vale", "home"),
    ]


@pytest.mark.parametrize(
    ("club", "said"),
    [((), "one club must be asked for"), (("--club", "Tolland Vail"), "mean Tolland Vale?")],
)
def test_a_league_without_a_known_club_is_refused_with_its_clubs(fixtures, tmp_path, club, said):
    told = run("new", "--fixtures", fixtures, *club, "-o", tmp_path / "own.toml")

    assert told.exit_code == 1
    assert said in told.stderr
    assert not (tmp_path / "own.toml").exists()


def test_every_club_of_a_list_has_a_season(fixtures, tmp_path):
    told = run("league", fixtures, "-o", tmp_path / "clubs")

    folder = tmp_path / "clubs"
    assert told.stderr.startswith("league.csv: 4 rows: 3 clubs, 2 to 3 matches each\n")
    assert told.stdout == f"Wrote 3 seasons to {folder}, one for each club of league.csv.\n"
    seasons = {path.stem: read_scenario(path).season for path in folder.glob("*.toml")}
    assert {stem: len(season.fixtures) for stem, season in seasons.items()} == {
        "01_pinmoor": 2,
        "02_redlow": 3,
        "03_tolland_vale": 3,
    }


def test_a_list_of_one_club_is_no_league(tmp_path):
    path = tmp_path / "one.csv"
    path.write_text("date,opponent\n2026-09-05,Redlow\n")

    told = run("league", path, "-o", tmp_path / "clubs")

    assert told.exit_code == 1
    assert "must have the columns date, home and away (got date, opponent)" in told.stderr


def test_without_a_list_an_invented_league_needs_its_first_day(tmp_path):
    told = run("league", "-o", tmp_path / "clubs")

    assert told.exit_code == 2
    assert "--start" in told.stderr
