import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from cli.files.scenario_file import read_scenario
from cli.files.scenario_rules import read_rules
from cli.main import main
from optimiser.explain.clash import find_clash

SCENARIOS = Path(__file__).parents[2] / "scenarios"
IMPOSSIBLE = SCENARIOS / "impossible.toml"


def run(command, *arguments):
    return CliRunner().invoke(main, [command, *map(str, arguments)])


@pytest.fixture(scope="module")
def told():
    result = run("explain", IMPOSSIBLE)
    assert result.exit_code == 0, result.output
    return result.stdout


def test_the_clash_names_rule_week_quality_and_the_numbers(told):
    assert "no plan keeps all the rules" in told
    assert "reentry ! Maximal strength restarts at rung 2 or lower in week 13" in told
    assert "pin       Maximal strength is pinned to band M5 in week 13" in told
    assert "Maximal strength needs 3 rungs up" in told
    assert "without any one of them the rest can be kept" in told


def test_the_calendar_is_told_as_given(told):
    assert "Given: weeks 11-12 are closed (Clubhouse and pitch closed)" in told
    assert "week 13 has a high match (Cup final)" in told


def test_repairs_have_sizes_and_safety_is_marked(told):
    assert "Unpin maximal strength from band M5 in week 13" in told
    assert "! Let maximal strength restart at rung 5 instead of 2 in week 13." in told
    assert "keeps people safe" in told


def test_json_has_every_demand_repair_and_question():
    data = json.loads(run("explain", IMPOSSIBLE, "--format", "json").stdout)

    assert data["format"] == "seasonwright.explain/1"
    assert data["verdict"] == "clash"
    clash = data["clashes"][0]
    assert clash["minimal"]
    assert clash["confirmed"]
    assert [(d["rule"], d["week"], d["quality"]) for d in clash["demands"]] == [
        ("reentry", 13, "max_strength"),
        ("pin", 13, "max_strength"),
    ]
    assert data["repairs"][1]["gives"] == [
        {
            "rule": "reentry",
            "week": 13,
            "quality": "max_strength",
            "part": "rung",
            "safety": True,
            "by": 3,
            "unit": "rungs",
            "waive": {"week": 13, "quality": "max_strength", "part": "rung", "by": 3},
        }
    ]
    assert {"core", "confirm", "cost"} <= {call["what"] for call in data["calls"]}


def test_an_applied_repair_reads_back_and_has_a_plan(tmp_path):
    out = tmp_path / "mended.toml"

    result = run("explain", IMPOSSIBLE, "--apply", 2, "-o", out)

    assert result.exit_code == 0
    assert result.stderr == f"Wrote {out} with repair 2.\n"
    assert out.read_text().startswith(IMPOSSIBLE.read_text())
    loaded = read_scenario(out)
    assert find_clash(loaded.season, read_rules(loaded)).verdict == "possible"


def test_a_season_with_a_plan_has_nothing_to_explain():
    result = run("explain", SCENARIOS / "minimal.toml")

    assert result.exit_code == 0
    assert "A plan that keeps all the rules exists" in result.stdout


def test_plan_shows_the_clash_at_once_and_where_repairs_are():
    result = run("plan", IMPOSSIBLE, "--strict")

    assert result.exit_code == 3
    assert result.stdout == ""
    assert "Maximal strength restarts at rung 2 or lower in week 13" in result.stderr
    assert f"seasonwright explain {IMPOSSIBLE}" in result.stderr


@pytest.mark.parametrize(
    ("options", "code", "said"),
    [
        (["--apply", "1"], 2, "--apply needs --out"),
        (["--out", "new.toml"], 2, "--out needs --apply"),
        (["--apply", "9", "-o", "new.toml"], 2, "must be a repair that was found (got 9"),
        (["--apply", "1", "-o", str(IMPOSSIBLE)], 1, "must be a new file"),
        (["--apply", "1", "-o", "none/there/new.toml"], 1, "must be in a folder that is there"),
        (["--repairs", "99"], 2, "--repairs"),
    ],
)
def test_options_that_cannot_be_are_refused(options, code, said, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)

    result = run("explain", IMPOSSIBLE, *options)

    assert result.exit_code == code
    assert said in result.stderr
    assert list(tmp_path.iterdir()) == []
