import json

import pytest
from click.testing import CliRunner

from cli.main import main
from tests.conftest import SCENARIOS

MINIMAL = SCENARIOS / "minimal.toml"
LOG = """\
date,what,dose,load
2027-02-17,sprint,missed,
2027-02-23,power,,300
"""


def run(*arguments):
    return CliRunner().invoke(main, ["replan", *map(str, arguments)])


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    made = tmp_path_factory.mktemp("replan")
    (made / "done.csv").write_text(LOG)
    result = CliRunner().invoke(main, ["plan", str(MINIMAL), "--out", str(made / "plan.json")])
    assert result.exit_code == 0, result.output
    return made


@pytest.fixture(scope="module")
def told(folder):
    """Week 9 on, a match moved to midweek, two weeks logged."""
    return run(
        MINIMAL, folder / "plan.json", "--week", 9, "--done", folder / "done.csv",
        "--move", "2027-04-10=2027-04-14", "--out", folder,
    )  # fmt: skip


def test_the_mail_says_what_was_done_what_breaks_and_what_changes(told):
    assert told.exit_code == 0, told.output
    assert "planned on from week 9 (2027-03-29)" in told.stdout
    assert "- Week 3 (2027-02-15): Sprint" in told.stdout
    assert "From here on the plan as it was breaks:" in told.stdout
    assert "congestion: week 11" in told.stdout
    assert "(proven)" in told.stdout
    assert "Plan A: what changes" in told.stdout


def test_no_decided_week_is_among_those_that_change(told):
    after = told.stdout.split("Plan A: what changes")[1]

    weeks = [int(line.split()[2]) for line in after.splitlines() if line.startswith("- Week")]
    assert weeks
    assert min(weeks) >= 9


def test_each_plan_is_saved_and_has_what_was_done(told, folder):
    document = json.loads((folder / "A.json").read_text())

    week = document["weeks"][2]
    assert week["qualities"]["sprint"]["dose"] == "none"
    assert document["format"] == "seasonwright.plan/1"
    assert all(breach["week"] < 9 for breach in document["breaches"])


def test_plain_data_has_a_plan_a_letter(folder):
    result = run(MINIMAL, folder / "plan.json", "--week", 13, "--format", "json")

    data = json.loads(result.stdout)
    assert (data["format"], data["week"]) == ("seasonwright.replan/1", 13)
    assert data["plans"]["A"]["cells"] == data["at_least"] == 0
    assert data["broken"] == []


def test_a_plan_that_may_stay_needs_no_change(folder):
    result = run(MINIMAL, folder / "plan.json", "--week", 13)

    assert "No change" in result.stdout
    assert "as it was" in result.stdout
    assert "Plan A: nothing changes." in result.stdout


def test_each_plan_says_what_it_means_at_the_next_peaks(told):
    head = next(line for line in told.stdout.splitlines() if line.startswith("Plan  "))

    assert head.endswith("08 May")
    assert "and how far from the best" in " ".join(told.stdout.split())


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (("--week", 15), 2, "must be 1 to 14"),
        (("--week", 0), 2, "--week"),
        (("--week", 3, "--done", "{folder}/done.csv"), 1, "line 2: date must not lie after today"),
        ((), 2, "--week says from where"),
        (("--week", 9, "--done", "{folder}/none.csv"), 1, "no such file"),
        (("--week", 9, "--out", "{folder}/nowhere"), 1, "must be a folder that is there"),
        (("--week", 9, "--drop", "2027-04-01"), 1, "must be the day of a fixture"),
        (("--week", 9, "--move", "2027-02-20=2027-04-15"), 1, "must not lie before today"),
    ],
)
def test_what_contradicts_the_season_is_told(folder, arguments, code, said):
    given = [str(argument).format(folder=folder) for argument in arguments]

    result = run(MINIMAL, folder / "plan.json", *given)

    assert result.exit_code == code
    assert said in result.stderr


def test_a_plan_of_another_season_is_refused(folder):
    other = folder / "other.toml"
    other.write_text(MINIMAL.read_text().replace("weeks = 14", "weeks = 15"))

    result = run(other, folder / "plan.json", "--week", 9)

    assert result.exit_code == 1
    assert "scenario.digest" in result.stderr
