"""What a person is shown of a season: its cost, what is proven of it, and what ended the search."""

import json

import pytest
from click.testing import CliRunner

from cli.main import main

SCENARIO = """
name = "Whole"
first_monday = 2027-02-01
weeks = 10

fixtures = [
    { date = 2027-03-20, opponent = "Southlea" },
    { date = 2027-04-10, opponent = "Westlea", priority = "high" },
]
"""


def run(*words):
    return CliRunner().invoke(main, list(map(str, words)))


def saved(folder, name, *more):
    scenario, out = folder / "whole.toml", folder / name
    scenario.write_text(SCENARIO)
    result = run("plan", scenario, "--out", out, *more)
    assert result.exit_code == 0, result.output
    return result.output, json.loads(out.read_text())


@pytest.fixture(scope="module")
def planned(tmp_path_factory):
    """A folder with the season and its plan."""
    folder = tmp_path_factory.mktemp("whole")
    saved(folder, "plan.json")
    return folder


def test_cost_parts_bound_and_what_ended_the_search_are_told_and_saved(tmp_path):
    shown, plan = saved(tmp_path, "plan.json", "--prove")
    season = plan["season"]

    assert season["status"] == plan["status"] == "proven"
    assert season["decided_by"] == "proof"
    assert abs(sum(season["parts"].values()) - season["cost"]) < 1e-6
    assert season["bound"] <= season["cost"] <= season["bound"] * 1.0002
    assert f"The season costs {season['cost']:.1f} points" in shown
    assert "Proven best: no plan that keeps these rules costs less." in shown
    assert plan["stages"] == []


def test_the_same_file_and_seed_give_the_same_plan(planned):
    one = json.loads((planned / "plan.json").read_text())
    _, other = saved(planned, "other.json")
    for plan in (one, other):
        plan["season"].pop("seconds")

    assert one == other


def test_audit_tells_the_season_cost_of_a_plan_and_of_ours(planned):
    shown = run("audit", planned / "whole.toml", planned / "plan.json").output

    told = shown.split("this plan costs ")[1].split()
    assert float(told[0]) == float(told[4].rstrip(";"))


def test_the_page_says_what_is_proven_of_the_season(planned, tmp_path):
    asked = (planned / "whole.toml", planned / "plan.json", "--html", "-o", tmp_path / "out")
    made = run("report", *asked)
    (page,) = (tmp_path / "out").glob("*.html")

    assert made.exit_code == 0
    assert "The season costs" in page.read_text(encoding="utf-8")
    assert "Made by hand" not in page.read_text(encoding="utf-8")
