"""Several squads of a club on what they share."""

from itertools import pairwise

import pytest
from click.testing import CliRunner

from cli.commands.club import club_command
from cli.files.scenario_file import read_scenario
from optimiser.describe import describe
from optimiser.domain.quality import Dose

SEASON = """
name = "{name}"
first_monday = 2027-02-01
weeks = 2
fixtures = [{{ date = 2027-02-06, kickoff = "15:00" }}, {{ date = 2027-02-13, kickoff = "15:00" }}]
"""
CLUB = """
name = "Oakhurst"

[[squads]]
name = "First"
scenario = "first.toml"
plan = "first.json"

[[squads]]
name = "Second"
scenario = "second.toml"
plan = "second.json"
priority = 2

[[shared]]
name = "Gym"
uses = ["gym"]
"""


@pytest.fixture
def club(tmp_path, plain_plan):
    """Write a club of two squads whose weeks are alike, and return how to call the command."""
    for name in ("first", "second"):
        path = tmp_path / f"{name}.toml"
        path.write_text(SEASON.format(name=name))
        loaded = read_scenario(path)
        plan = plain_plan(loaded.season, rung=3, dose=Dose.TOUCH)
        told = describe(loaded.season, plan, [], None, digest=loaded.digest, seed=0, versions={})
        (tmp_path / f"{name}.json").write_text(told.model_dump_json())

    def call(*args, text=CLUB):
        (tmp_path / "club.toml").write_text(text)
        return CliRunner().invoke(club_command, [str(tmp_path), *args])

    return call


def test_a_year_says_how_full_rooms_are_and_what_is_proven(club):
    done = club("--prices")

    assert done.exit_code == 0
    assert "Oakhurst: 2 squads, 2 weeks" in done.output
    assert "One squad more at once in" in done.output


def test_a_week_shows_every_squad_and_nobody_shares_the_gym(club):
    done = club("--monday", "2027-02-03")
    rows = done.output.split("Gym, week of 2027-02-01")[1].splitlines()
    times = sorted((row[:10], *row[12:23].split("-")) for row in rows if "gym session" in row)

    assert "First, week 1" in done.output
    assert "Second, week 1" in done.output
    assert len(times) >= 2
    for (day, _, end), (other, start, _) in pairwise(times):
        assert day != other or end <= start


def test_a_week_outside_of_all_seasons_is_refused(club):
    done = club("--monday", "2030-01-07")

    assert done.exit_code == 2
    assert "must lie in a week of some squad's season" in done.output


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('uses = ["gym"]', 'uses = ["sauna"]', "shared[1].uses"),
        ('uses = ["gym"]', 'uses = ["gym"]\nsquads = ["Third"]', "Third"),
        ('name = "Oakhurst"', "name =", "club.toml"),
    ],
)
def test_a_file_that_cannot_be_used_is_refused_in_one_line(club, old, new, words):
    done = club(text=CLUB.replace(old, new))

    assert done.exit_code == 1
    assert words in done.output
    assert "Traceback" not in done.output
