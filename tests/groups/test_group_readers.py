"""Commands that read a plan take that of a group in its own season, or say why not."""

import json

import pytest
from click.testing import CliRunner
from group_seasons import SHORT

from cli.main import main


def run(command, *arguments):
    return CliRunner().invoke(main, [command, *map(str, arguments)])


@pytest.fixture
def folder(short_folder):
    return short_folder[0] / "plans"


@pytest.fixture
def scenario(short_folder):
    return short_folder[0] / "short.toml"


@pytest.fixture
def plan(folder):
    return folder / "non-playing.json"


@pytest.mark.parametrize("group", ["starters", "non-playing", "returning"])
def test_the_audit_of_every_group_finds_nothing(folder, scenario, group):
    result = run("audit", scenario, folder / f"{group}.json", "--no-optimum")

    assert result.exit_code == 0, result.output
    assert "No rule is broken." in result.stdout
    assert f"Brookmere Autumn, {group}" in result.stdout
    assert result.stderr == ""


def test_why_answers_for_the_season_of_the_group_and_says_that_it_looks_at_it_alone(scenario, plan):
    result = run("why", scenario, plan, "--week", 5, "--quality", "sprint", "--format", "json")

    assert result.exit_code == 0, result.output
    json.loads(result.stdout)
    assert "plan of one group, non-playing" in result.stderr


def test_a_report_tells_the_readiness_of_the_group(scenario, plan, tmp_path):
    result = run("report", scenario, plan, "-o", tmp_path, "--html")

    assert result.exit_code == 0, result.output
    page = next(tmp_path.glob("*.html")).read_text(encoding="utf-8")
    assert "Brookmere Autumn, non-playing" in page


def test_the_workbook_of_a_group_is_read_back_as_that_of_the_group(scenario, plan, tmp_path):
    run("report", scenario, plan, "-o", tmp_path, "--xlsx")
    workbook = next(tmp_path.glob("*.xlsx"))

    first, back = (
        run("audit", scenario, path, "--no-optimum").stdout.splitlines()
        for path in (plan, workbook)
    )

    assert "Brookmere Autumn, non-playing" in back[0]
    assert back[1:] == first[1:]


def test_planning_on_keeps_the_shared_days_of_the_weeks_that_stand(scenario, plan, tmp_path):
    result = run("replan", scenario, plan, "--week", 6, "--out", tmp_path)

    assert result.exit_code == 0, result.output
    assert "plan of one group, non-playing" in result.stderr
    before = json.loads(plan.read_text())
    after = json.loads((tmp_path / "A.json").read_text())
    assert after["scenario"] == before["scenario"]
    assert [week["days"] for week in after["weeks"][:5]] == [
        week["days"] for week in before["weeks"][:5]
    ]


def test_a_change_is_looked_at_in_the_season_of_the_group(scenario, plan, tmp_path):
    out = tmp_path / "changed.json"

    result = run(
        "whatif", scenario, "--base", plan, "--rank", "2026-10-03=medium", "--out", out,
        "--format", "json",
    )  # fmt: skip

    assert result.exit_code == 0, result.output
    changed = json.loads(out.read_text())
    assert changed["scenario"]["group"] == "non-playing"
    assert {week["load"]["matches"] for week in changed["weeks"]} == {0}


@pytest.mark.parametrize(
    "arguments", [["serve", "--plan"], ["sweep", "--grid", "deload.every=4", "--base"]]
)
def test_where_a_plan_of_all_is_needed_that_of_a_group_is_refused(scenario, plan, arguments):
    command, *more = arguments

    result = run(command, scenario, *more, plan)

    assert result.exit_code == 1
    assert "scenario.group: must be left out" in result.stderr
    assert len(result.stderr.strip().splitlines()) == 1


def test_a_plan_of_a_group_that_the_scenario_has_not_is_refused(tmp_path, plan):
    other = tmp_path / "other.toml"
    other.write_text(SHORT + "[groups.starters]\n")

    result = run("week", other, plan, "--week", 5)

    assert result.exit_code == 1
    assert "must be one of the groups of" in result.stderr
