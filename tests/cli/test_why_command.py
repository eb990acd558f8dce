import json

import pytest
from click.testing import CliRunner

from cli.main import main

SHORT = """\
name = "Brookmere Autumn"
first_monday = 2026-08-31
weeks = 7
fixtures = [ { date = 2026-10-03, opponent = "Tolland" },
             { date = 2026-10-17, opponent = "Ashby Vale", priority = "high" } ]
"""


def run(command, *arguments):
    return CliRunner().invoke(main, [command, *map(str, arguments)])


@pytest.fixture(scope="module")
def files(tmp_path_factory):
    folder = tmp_path_factory.mktemp("why")
    (folder / "short.toml").write_text(SHORT)
    made = run("plan", folder / "short.toml", "--out", folder / "plan.json")
    assert made.exit_code == 0, made.output
    return folder / "short.toml", folder / "plan.json"


def test_other_choices_are_listed_with_cost_or_rule(files):
    result = run("why", *files, "--week", 3, "--quality", "sprint")

    assert result.exit_code == 0
    assert "Sprint is on S" in result.stdout
    assert result.stdout.count("the plan") >= 2
    assert "forbidden by" in result.stdout
    assert "allowed; " in result.stdout
    assert "choices" in result.stdout


def test_numbers_that_the_search_weighs_are_shown_only_if_asked_for(files):
    plain = run("why", *files, "--week", 3, "--quality", "sprint").stdout
    told = run("why", *files, "--week", 3, "--quality", "sprint", "--numbers").stdout

    assert "[" not in plain
    assert "of 100; this band stands at" in told
    assert "of 100; this band stands at" not in plain
    assert "points less ready" in plain or "no match would notice" in plain or "as good" in plain


def test_a_week_tells_its_target_deload_taper_block_and_days(files):
    result = run("why", *files, "--week", 7)

    target, deload, taper, block, days = result.stdout.split("\n\n")
    assert result.exit_code == 0
    assert "It holds the high match against Ashby Vale." in target
    assert "deload week" in deload
    assert taper.startswith("Week 7 is a taper week.")
    assert "ends there because the season ends" in " ".join(block.split())
    assert days.startswith("Sessions of week 7:")


def test_limits_of_rules_are_told_on_request(files):
    plain = run("why", *files, "--week", 7, "--about", "taper").stdout
    told = run("why", *files, "--week", 7, "--about", "taper", "--numbers").stdout

    assert "so that the side comes to it fresh" in " ".join(plain.split())
    assert "%" not in plain
    assert "% of a full week" in " ".join(told.split())


def test_a_block_that_could_not_end_otherwise_names_the_rule(files):
    result = run("why", *files, "--week", 1, "--about", "block")

    said = " ".join(result.stdout.split())
    assert "A week more" in said
    assert "is stopped by" in said or "would break no rule" in said


def test_a_forbidden_band_is_a_clash_in_words(files):
    result = run("why", *files, "--week", 1, "--quality", "Sprint", "--band", "s5")

    assert result.exit_code == 0
    assert "Sprint on band S5 in week 1: no plan can have it." in result.stdout
    assert "Sprint restarts at rung 2 or lower in week 1" in result.stdout


def test_a_possible_dose_costs_term_by_term(files):
    document = json.loads(files[1].read_text())
    now = document["weeks"][2]["qualities"]["sprint"]["dose"]
    other = "touch" if now != "touch" else "reduced"

    result = run(
        "why", *files, "--week", 3, "--quality", "sprint", "--dose", other, "--format", "json"
    )

    data = json.loads(result.stdout)
    assert data["format"] == "seasonwright.why_not/1"
    assert data["answer"] in ("costs", "equal")
    cost = data["cost"]
    assert sum(cost["terms"].values()) == cost["cost"] >= cost["at_least"]
    assert any(move.startswith("week 3 sprint") for move in data["moves"])


def test_the_answer_in_words_names_what_moves(files):
    result = run("why", *files, "--week", 4, "--quality", "power", "--band", "2")

    assert result.exit_code == 0
    said = result.stdout
    assert "no plan can have it" in said or "What moves:" in said or "has that already" in said


def test_what_the_plan_has_needs_no_answer(files):
    document = json.loads(files[1].read_text())
    band = document["weeks"][4]["qualities"]["power"]["band"]

    result = run("why", *files, "--week", 5, "--quality", "power", "--band", band)

    assert result.stdout == f"The plan has that already: Power on band {band} in week 5.\n"


def test_json_of_the_other_choices(files):
    data = json.loads(
        run("why", *files, "--week", 2, "--quality", "power", "--format", "json").stdout
    )

    assert data["week"] == 2
    assert [each["choice"] for each in data["doses"]] == ["none", "touch", "reduced", "full"]
    assert sum(each["current"] for each in data["bands"]) == 1


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["--week", 9, "--quality", "sprint"], "must be 1 to 7 (got 9)"),
        (["--week", 0, "--quality", "sprint"], "--week"),
        (["--week", 2, "--quality", "sprnt"], "did you mean sprint?"),
        (["--week", 2, "--quality", "sprint", "--band", "Q9"], "must be one of S1"),
        (["--week", 2, "--quality", "sprint", "--band", "6"], "a rung from 1 to 5"),
        (["--week", 2, "--quality", "sprint", "--dose", "much"], "--dose"),
        (["--week", 2, "--dose", "full"], "ask about a --quality"),
        (["--week", 2, "--quality", "sprint", "--about", "days"], "leave --quality out"),
        (
            ["--week", 2, "--quality", "sprint", "--dose", "full", "--band", "S1"],
            "one at a time",
        ),
    ],
)
def test_options_that_cannot_be_are_refused(files, options, said):
    result = run("why", *files, *options)

    assert result.exit_code == 2
    assert said in result.stderr


def test_more_readiness_for_a_match_costs_something_or_cannot_be(files):
    """A week without a match, and less than is planned, are refused in a line."""
    planned = json.loads(files[1].read_text())["weeks"][6]["readiness"]
    more = run("why", *files, "--week", 7, "--readiness", planned + 0.5)
    most = run("why", *files, "--week", 7, "--readiness", 140)
    none = run("why", *files, "--week", 3, "--readiness", 90)
    less = run("why", *files, "--week", 7, "--readiness", 1)

    assert (more.exit_code, most.exit_code) == (0, 0)
    assert "Ashby Vale" in more.stdout
    assert "No plan that keeps these rules is 140 points ready for Ashby Vale" in most.stdout
    assert none.exit_code == less.exit_code == 2
    assert "week 3 has none" in none.stderr
    assert "must be more than the" in less.stderr
