"""What a scenario says about equipment and about the standing work of a week."""

import datetime as dt
import json

import pytest
from click.testing import CliRunner

from cli.commands.cards import cards_command
from cli.commands.week import week_command
from cli.files.scenario_file import read_scenario
from optimiser.athlete.card import CardSet
from optimiser.athlete.library import default_library
from optimiser.domain.quality import Dose
from optimiser.review.describe import describe

SEASON = """
name = "Cards"
first_monday = 2027-02-01
weeks = 3
squad_file = "squad.csv"
fixtures = [{ date = 2027-02-06, opponent = "Southlea" }, { date = 2027-02-13 }]
"""
EXERCISES = default_library().exercises


@pytest.fixture
def files(tmp_path, plain_plan):
    """Write a scenario, its squad and a plan; more lines go to the scenario."""

    def write(more="", dose=Dose.FULL):
        scenario = tmp_path / "season.toml"
        scenario.write_text(SEASON + more)
        (tmp_path / "squad.csv").write_text("name,group,body_mass_kg\nMaren Holloway,squad,63.5\n")
        loaded = read_scenario(scenario)
        made = plain_plan(loaded.season, rung=2, dose=dose)
        document = describe(
            loaded.season, made, [], None, digest=loaded.digest, seed=0, versions={}
        )
        (tmp_path / "plan.json").write_text(document.model_dump_json())
        return str(scenario), str(tmp_path / "plan.json")

    return write


def run(files, *more):
    return CliRunner().invoke(cards_command, [*files, "--week", "2", *more])


def sessions(files):
    result = run(files, "--format", "json")
    assert result.exit_code == 0, result.output
    (card,) = CardSet.model_validate_json(result.stdout).cards
    return card.sessions


def test_a_club_with_nothing_but_a_field_has_whole_sessions(files):
    found = sessions(files("[equipment]\nhave = []\n"))
    keys = [line.key for each in found for block in each.blocks for line in block.lines]

    assert not any(EXERCISES[key].equipment for key in keys)
    assert [len(each.blocks) for each in found] == [len(each.blocks) for each in sessions(files())]


def test_minutes_are_those_of_the_week(files):
    there = files()
    week = CliRunner().invoke(week_command, [*there, "--week", "2", "--format", "json"])
    planned = {
        (day["date"], each["place"]): each["minutes"]
        for day in json.loads(week.stdout)["days"]
        for each in day["sessions"]
    }
    assert {(str(each.date), each.place): each.minutes for each in sessions(there)} == planned


def test_own_standing_work_is_on_the_card_and_in_the_minutes(files):
    more = """
[preparation.neck]
name = "Neck"
work = { exercise = "neck_hold", sets = 2, seconds = 20, rest = 20 }

[exercises.neck_hold]
name = "Neck hold"
cue = "Chin tucked, long neck"
"""
    found = [line for each in sessions(files(more)) for line in each.blocks[-1].lines]

    assert ("Neck hold", "Neck") in {(line.exercise, line.step) for line in found}


def test_a_kind_can_be_left_out(files):
    left_out = "[preparation.hamstrings]\nin_season = 0\n"
    found = [line for each in sessions(files(left_out)) for line in each.blocks[-1].lines]

    assert "hamstring_lowering" not in {line.key for line in found}


def test_work_for_one_short_session_is_not_put_into_two(files, tmp_path, plain_plan):
    # 20 min of one quality in two sessions of 10 min would be 20 min of warm-up for them
    scenario, _ = files()
    loaded = read_scenario(tmp_path / "season.toml")
    made = plain_plan(loaded.season, rung=2, dose=Dose.NONE)
    doses = tuple((Dose.REDUCED,) * 3 if at == 0 else row for at, row in enumerate(made.doses))
    plan = made.model_copy(update={"doses": doses, "field": (2, 2, 2), "gym": (0, 0, 0)})
    document = describe(loaded.season, plan, [], None, digest=loaded.digest, seed=0, versions={})
    (tmp_path / "plan.json").write_text(document.model_dump_json())

    found = sessions((scenario, str(tmp_path / "plan.json")))
    assert [each.place for each in found] == ["field"]
    assert found[0].date < dt.date(2027, 2, 13)


@pytest.mark.parametrize(
    ("more", "told"),
    [
        ('[equipment]\nhave = ["rak"]\n', "equipment.have: must name equipment"),
        ('[equipment]\nhave = []\nmissing = ["rack"]\n', "keep one"),
        ("[equipment]\nhav = []\n", "Did you mean have?"),
        ('[preparation.x]\nname = "X"\nwork = { exercise = "skwat", reps = 5 }\n', "mean squat?"),
        ("[preparation.hamstrings]\nin_season = 9\n", "preparation.hamstrings.in_season"),
        ("[preparation.hamstrings]\nin_seson = 2\n", "Did you mean in_season?"),
        ("[preparation]\nx = 3\n", "preparation.x"),
    ],
)
def test_what_is_wrong_is_told_in_one_line(files, more, told):
    there = files()
    scenario = there[0]
    with open(scenario, "a") as file:
        file.write(more)
    result = run(there)

    assert result.exit_code == 1
    assert told.lower() in result.stderr.lower()
    assert len(result.stderr.strip().splitlines()) == 1
