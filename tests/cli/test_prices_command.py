import csv
import io
import json
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner

import cli.commands.prices
from cli.files.scenario_file import load_scenario
from cli.files.scenario_rules import read_rules
from cli.main import main
from cli.render.prices import prices_table
from optimiser.explain.prices.looser import Change
from optimiser.explain.prices.price import Gain, Price
from optimiser.joint_model.solve import solve_season

SHORT = """\
name = "Brookmere Autumn"
first_monday = 2026-08-31
weeks = 6
fixtures = [ { date = 2026-10-03, opponent = "Tolland", priority = "high" } ]
[rules]
blocks = { use = false }
progression = { use = false }
spacing = { use = false }
load_ramp = { use = false }
foundation = { use = false }
exposure = { use = false }
budget = { use = false }
deload = { use = false }
[[rules.pin.choices]]
week = 5
quality = "sprint"
dose = "none"
"""


def run(*arguments):
    return CliRunner().invoke(main, [*map(str, arguments)])


@pytest.fixture(scope="module")
def files(tmp_path_factory):
    folder = tmp_path_factory.mktemp("prices")
    (folder / "short.toml").write_text(SHORT)
    made = run("plan", folder / "short.toml", "--out", folder / "plan.json")
    assert made.exit_code == 0, made.output
    return folder / "short.toml", folder / "plan.json"


@pytest.fixture
def priced(files, monkeypatch):
    def short(settings):
        return replace(settings, quick=True)

    monkeypatch.setattr(cli.commands.prices, "_short", short)
    return lambda form: run(
        "prices", files[0], "--plan", files[1], "--processes", 1, "--format", form
    )


def test_the_table_ranks_rules_and_marks_safety(priced):
    result = priced("table")

    assert result.exit_code == 0, result.output
    assert result.stdout.startswith("Brookmere Autumn: match score ")
    assert "taper !" in result.stdout
    assert "its price is no reason to drop it" in result.stdout


def test_a_rule_that_costs_one_match_is_not_told_to_cost_nothing():
    loaded = load_scenario(SHORT, Path("short.toml"))
    rules = read_rules(loaded)
    plan = solve_season(loaded.season, rules).plan
    taper = next(rule for rule in rules if rule.name == "taper")
    gain = Gain(Change("taper", "dropped"), 0.04, (4, "Tolland"), 0.5)

    told = prices_table(loaded.season, plan, rules, [Price(taper.name, True, gain, None)])

    assert "cost Tolland (week 5) 0.5 points" in " ".join(told.split())
    assert "Cost nothing" not in told


def test_json_and_csv_have_the_same_rows(priced):
    data = json.loads(priced("json").stdout)
    rows = list(csv.DictReader(io.StringIO(priced("csv").stdout)))

    assert data["format"] == "seasonwright.prices/1"
    assert [row["rule"] for row in rows] == [row["rule"] for row in data["rules"]]
    assert {row["rule"] for row in rows} >= {"taper", "pin", "reentry"}
    assert "blocks" not in {row["rule"] for row in rows}
    for row, told in zip(rows, data["rules"], strict=True):
        assert float(row["dropped"]) == told["dropped"] >= 0


def test_a_season_without_a_plan_is_a_clash(files, tmp_path):
    path = tmp_path / "clash.toml"
    path.write_text(SHORT.replace('dose = "none"', 'band = "S5"').replace("week = 5", "week = 1"))

    result = run("prices", path)

    assert result.exit_code == 3
    assert "restarts at rung 2 or lower" in result.stderr
