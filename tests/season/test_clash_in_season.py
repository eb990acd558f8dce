"""Demands that clash in a season that has begun end with the nearest plan; the past stands."""

import json

import pytest

from cli.files.plan_json import read_document
from cli.files.scenario_file import read_scenario
from optimiser.domain.document import to_plan
from tests.season.conftest import invoke

TODAY = ("--today", "2027-03-10")
#: Sprint cannot be back at the bottom while the final is tapered for.
WISHED = """
[rules.pin]
choices = [ { week = 8, quality = "sprint", band = "S1" } ]
"""


@pytest.fixture
def clashing(full_club):
    full_club.scenario.write_text(full_club.scenario.read_text() + WISHED)
    full_club.done.write_text("date,what,dose\n2027-02-09,power,none\n")
    return full_club


def over(club, weeks=5):
    document = read_document(club.plan)
    plan = to_plan(document, read_scenario(club.scenario).season)
    return [row[:weeks] for row in (*plan.rungs, *plan.doses, plan.field, plan.gym)]


def test_the_nearest_plan_is_shown_and_only_put_in_force_on_request(clashing):
    before = clashing.now()

    result = invoke("plan", clashing.path, *TODAY)

    assert result.exit_code == 3
    assert "no plan from here on: the rules clash" in result.stderr
    assert "Sprint is pinned to band S1 in week 8" in result.stderr
    assert "This is the nearest one; it gives up:\n- Unpin sprint from band S1" in result.stdout
    assert f"`seasonwright plan {clashing.path} --apply` puts it there" in result.stderr
    assert clashing.now() == before


@pytest.mark.parametrize("asked", [("plan", "--apply"), ("replan", "--apply", "A")])
def test_a_nearest_plan_in_force_can_be_used_by_every_command_and_taken_back(clashing, asked):
    before, past = clashing.now(), over(clashing)

    result = invoke(asked[0], clashing.path, *TODAY, *asked[1:])

    assert result.exit_code == 3, result.output
    document = read_document(clashing.plan)
    assert [(each.rule, each.week) for each in document.concessions] == [("pin", 8)]
    assert "# a week of half term" in clashing.scenario.read_text()
    assert over(clashing) == past
    told = invoke("audit", clashing.path, *TODAY, "--no-optimum")
    assert told.exit_code == 0, told.output
    assert "No rule is broken" in told.stdout
    again = invoke("replan", clashing.path, *TODAY)
    assert again.exit_code == 0
    assert "No change needed" in again.stdout
    invoke("undo", clashing.path, *TODAY)
    assert clashing.now() == before


def test_explain_argues_about_the_weeks_to_come(clashing):
    told = json.loads(invoke("explain", clashing.path, *TODAY, "--format", "json").stdout)

    weeks = [each["week"] for each in told["clashes"][0]["demands"] if each["rule"] != "blocks"]
    assert min(weeks) > 5
    assert ["Unpin sprint from band S1" in words for words in told["repairs"][0]["words"]] == [True]


def test_work_that_was_missed_is_no_clash(club):
    rows = [f"2027-03-0{day},{what},none" for day in (2, 3) for what in ("sprint", "power")]
    club.done.write_text("\n".join(["date,what,dose", *rows, ""]))

    result = invoke("plan", club.path, *TODAY)

    assert result.exit_code == 0, result.output
    assert "gives up" not in result.stdout


def test_strict_gives_no_nearest_plan_in_a_season_that_has_begun(clashing):
    for command in ("plan", "replan"):
        result = invoke(command, clashing.path, *TODAY, "--strict")

        assert result.exit_code == 3
        assert result.stdout == ""


def test_a_first_plan_in_mid_season_says_what_the_weeks_that_are_over_count_as(club):
    club.plan.unlink()

    told = " ".join(invoke("plan", club.path, *TODAY).stderr.split())

    assert "5 weeks are over, and no plan was in force in them" in told
    assert club.plan.exists()
    assert "in force in them" not in invoke("plan", club.path, *TODAY).stderr
