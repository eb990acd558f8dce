"""A ladder of a coach's own, written in sets that fall: it is used in the order it is written."""

import json
import re

import pytest
from click.testing import CliRunner

from cli.main import main

SEASON = """\
name = "Own ladder"
first_monday = 2026-08-31
weeks = 9
fixtures = [ { date = 2026-10-31, opponent = "Ashby Vale", priority = "high" } ]

[qualities.max_strength]
bands = [
  { code = "4S", label = "Sets 4", work = "4 sets of 5 at 80 %", gain = 0.6 },
  { code = "3S", label = "Sets 3", work = "3 sets of 4 at 85 %", gain = 0.8 },
  { code = "2S", label = "Sets 2", work = "2 sets of 3 at 90 %", gain = 1.0 },
]
"""


def run(command, *arguments):
    result = CliRunner().invoke(main, [command, *map(str, arguments)])
    assert result.exit_code == 0, result.output
    return result.stdout


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    made = tmp_path_factory.mktemp("ladder")
    (made / "season.toml").write_text(SEASON)
    (made / "squad.csv").write_text("name,group,body_mass_kg\nOna Ferrow,squad,61\n")
    return made


@pytest.fixture(scope="module")
def told(folder):
    return run("plan", folder / "season.toml", "--out", folder / "plan.json")


def test_the_plan_says_how_good_it_is_and_tells_the_bands_in_the_order_they_are_written(told):
    assert re.search(r"\n(No plan that keeps these rules|Proven best:)", told)
    assert "4S Sets 4, 3S Sets 3, 2S Sets 2" in told


def test_the_plan_climbs_the_ladder_from_more_sets_to_fewer(folder, told):
    weeks = json.loads((folder / "plan.json").read_text())["weeks"]
    rungs = [week["qualities"]["max_strength"]["rung"] for week in weeks]
    codes = [week["qualities"]["max_strength"]["band"] for week in weeks]

    assert rungs == sorted(rungs)
    assert [["4S", "3S", "2S"][rung - 1] for rung in rungs] == codes
    assert len(set(codes)) > 1


def test_a_session_and_a_card_have_the_words_of_the_ladder(folder, told):
    season, plan = folder / "season.toml", folder / "plan.json"
    week = run("week", season, plan, "--week", 5)
    card = run("cards", season, plan, "--week", 5, "--squad", folder / "squad.csv")
    code = re.search(r"Maximal strength (\dS)", week)[1]

    assert code in card
    assert "Power W" in week


def test_a_quality_that_is_misspelt_is_told_what_was_meant(folder):
    path = folder / "misspelt.toml"
    path.write_text(SEASON.replace("max_strength", "maximal_strength"))

    result = CliRunner().invoke(main, ["plan", str(path)])

    assert result.exit_code == 1
    assert "line 6, qualities.maximal_strength" in result.stderr
    assert "Did you mean max_strength?" in result.stderr
