import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from cli.commands.cards import cards_command
from cli.files.scenario_file import read_scenario
from cli.files.squad import read_squad
from optimiser.athlete.library import default_library
from optimiser.athlete.squad import Group
from optimiser.domain.quality import Dose
from optimiser.review.describe import describe

SCENARIOS = Path(__file__).parents[2] / "scenarios"
SEASON = """
name = "Cards"
first_monday = 2027-02-01
weeks = 3
squad_file = "squad.csv"
fixtures = [{ date = 2027-02-06, opponent = "Southlea" }, { date = 2027-02-13 }]
"""
SQUAD = """name,group,body_mass_kg,squat_1rm_kg,unavailable_from,unavailable_to
Maren Holloway,starters,63.5,95,,
Ines Carrow,squad,58,,2027-02-08,2027-02-10
"""


@pytest.fixture
def files(tmp_path, plain_plan):
    """Write a scenario, its squad and a plan; more lines go to the scenario."""

    def write(more="", squad=SQUAD, text=SEASON):
        scenario = tmp_path / "season.toml"
        scenario.write_text(text + more)
        (tmp_path / "squad.csv").write_text(squad)
        loaded = read_scenario(scenario)
        made = plain_plan(loaded.season, rung=2, dose=Dose.FULL)
        document = describe(
            loaded.season, made, [], None, digest=loaded.digest, seed=0, versions={}
        )
        (tmp_path / "plan.json").write_text(document.model_dump_json())
        return str(scenario), str(tmp_path / "plan.json")

    return write


def run(files, *more, week=2):
    return CliRunner().invoke(cards_command, [*files, "--week", str(week), *more])


def cards(result):
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)["cards"]


def test_every_athlete_has_a_card_and_care_is_said_once(files):
    result = run(files())

    assert result.exit_code == 0, result.output
    assert "For Maren Holloway, Ines Carrow" in result.stdout
    assert result.stdout.count("Stop at pain") == 1


def test_cards_say_on_which_days_the_sessions_are(files):
    found = cards(run(files(), "--format", "json"))[0]["week"]["sessions"]

    assert {(s["place"], tuple(s["work"])) for s in found} == {
        ("field", ("Sprint", "Plyometrics", "Resisted sprint")),
        ("gym", ("Power", "Maximal strength", "General strength")),
    }
    assert {s["label"] for s in found} <= {"MD+2", "MD-4", "MD-3", "MD-2"}
    assert all("2027-02-08" <= s["date"] <= "2027-02-11" for s in found)


def test_a_session_the_athlete_is_away_for_is_marked_on_that_card_only(files):
    away = SQUAD.replace("2027-02-10", "2027-02-11")
    first, second = cards(run(files(squad=away), "--format", "json"))

    assert not any(s["away"] for s in first["week"]["sessions"])
    assert all(s["away"] for s in second["week"]["sessions"])
    assert "- away: Ines Carrow" in run(files(squad=away)).stdout
    assert "you are away" in run(files(squad=away), "--athlete", "Ines Carrow").stdout


def test_one_athlete_can_be_asked_for_in_any_case_of_letters(files):
    found = cards(run(files(), "--athlete", "ines carrow", "--format", "json"))

    assert [card["athlete"] for card in found] == ["Ines Carrow"]


def test_an_unknown_athlete_is_answered_with_the_nearest(files):
    result = run(files(), "--athlete", "Ines")

    assert result.exit_code == 2
    assert "did you mean Ines Carrow?" in result.stderr


def test_another_squad_can_be_given(files, tmp_path):
    other = tmp_path / "other.csv"
    other.write_text("name,group,body_mass_kg\nTove Lindgard,squad,66\n")
    found = cards(run(files(), "--squad", str(other), "--format", "json"))

    assert [card["athlete"] for card in found] == ["Tove Lindgard"]


def test_a_scenario_without_a_squad_says_what_to_do(files):
    result = run(files(text=SEASON.replace('squad_file = "squad.csv"\n', "")))

    assert result.exit_code == 1
    assert "--squad" in result.stderr


def test_own_work_and_own_kit_reach_the_card(files):
    more = """
[prescriptions.M3]
exercise = "squat"
sets = 7
reps = 2
percent = 80

[kit]
bar_kg = 15
plates = [10]
"""
    first = cards(run(files(more), "--athlete", "Maren Holloway", "--format", "json"))[0]
    squat = next(
        line for part in first["sections"] if part["code"] == "M3" for line in part["lines"]
    )

    assert squat["sets"] == 7
    # 80 % of 95 kg is 76 kg: with a bar of 15 kg and one pair of tens that is 35 kg.
    assert squat["kg"] == [35, 35]


@pytest.mark.parametrize(
    ("more", "told"),
    [
        ("[kit]\nbar = 20\n", "Did you mean bar_kg?"),
        ("[kit]\nbar_kg = 90\n", "kit.bar_kg"),
        ('[prescriptions.M3]\nexercise = "sqat"\nreps = 3\n', "Did you mean squat?"),
        ('[prescriptions.M3]\nexercise = "squat"\nsetz = 3\nreps = 3\n', "Did you mean sets?"),
        ("[exercises.own]\nname = 3\n", "exercises.own.name"),
    ],
)
def test_what_is_wrong_in_own_work_is_told_in_one_line(files, more, told):
    scenario, plan = files()
    Path(scenario).write_text(f"{SEASON}\n{more}")

    result = run((scenario, plan))

    assert result.exit_code == 1
    assert told in result.stderr
    assert "season.toml" in result.stderr
    assert "Traceback" not in result.output


def test_a_week_outside_the_season_is_bad_usage(files):
    assert run(files(), week=9).exit_code == 2


def test_the_demo_squad_can_be_read_and_has_every_group():
    library = default_library()
    squad = read_squad(SCENARIOS / "hockey_squad.csv", library.exercises, library.tags)

    assert {athlete.group for athlete in squad.athletes} == set(Group)
    assert any(athlete.young for athlete in squad.athletes)
    assert read_scenario(SCENARIOS / "hockey_two_halves.toml").scenario.squad_file
