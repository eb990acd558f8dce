import json

import pytest
from click.testing import CliRunner

import cli.commands.whatif as module
from cli.main import main

CUP = """\
name = "Cup match"
[[edits]]
edit = "add"
date = 2026-10-07
opponent = "Loxley"
priority = "medium"
[[edits]]
edit = "add"
date = 2026-10-05
[[edits]]
edit = "add"
date = 2026-10-09
"""
NO_PEAK = """\
name = "No peak"
[[edits]]
edit = "rank"
date = 2026-10-17
priority = "low"
"""
CLASH = """\
name = "Top band at once"
[[edits]]
edit = "pin"
week = 1
quality = "sprint"
band = "S5"
"""


def run(*arguments):
    return CliRunner().invoke(main, ["whatif", *map(str, arguments)])


@pytest.fixture(scope="module")
def folder(short_file):
    for name, text in (("cup", CUP), ("peak", NO_PEAK), ("clash", CLASH)):
        (short_file.parent / f"{name}.toml").write_text(text)
    result = CliRunner().invoke(
        main, ["plan", str(short_file), "--out", str(short_file.parent / "base.json")]
    )
    assert result.exit_code == 0, result.output
    return short_file.parent


@pytest.fixture(scope="module")
def answer(folder):
    """Two changes against a saved plan, as plain data."""
    result = run(
        folder / "short.toml", folder / "cup.toml", folder / "peak.toml",
        "--base", folder / "base.json", "--format", "json",
    )  # fmt: skip
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


def test_a_change_that_changes_nothing_leaves_every_choice(folder):
    result = run(
        folder / "short.toml", "--rank", "2026-10-17=high", "--base", folder / "base.json",
        "--format", "json",
    )  # fmt: skip

    changed = json.loads(result.stdout)["changes"][0]
    assert result.exit_code == 0
    assert changed["weeks"] == []
    assert changed["bind_now"] == []


def test_the_saved_plan_is_the_base(folder, answer):
    saved = json.loads((folder / "base.json").read_text())

    assert answer["base"]["match"]["score"] == saved["match"]["score"]
    assert answer["base"]["season"]["status"] in ("proven", "within_gap")


def test_a_new_fixture_has_a_score_after_and_none_before(answer):
    row = next(r for r in answer["changes"][0]["fixtures"] if r["was"] is None)

    assert row["now"]["opponent"] == "Loxley"
    assert row["score_before"] is None
    assert 0 < row["score_after"] <= 100


def test_midweek_matches_leave_less_room_for_training(answer):
    before = answer["base"]["totals"]["training"]

    assert answer["changes"][0]["totals"]["training"] < before
    assert [week["week"] for week in answer["changes"][0]["weeks"]]


def test_without_a_high_fixture_there_is_no_score_at_one(answer):
    assert answer["changes"][1]["match"]["at_high"] is None


def test_the_table_has_a_column_a_change_and_the_weeks_in_words(folder):
    result = run(
        folder / "short.toml", folder / "peak.toml", folder / "cup.toml",
        "--base", folder / "base.json",
    )  # fmt: skip

    assert "as it stands" in result.stdout
    assert "No high fixture is left, so nothing is peaked for." in result.stdout
    assert "Cup match: weeks that change" in result.stdout
    assert "2026-10-07 medium Loxley" in result.stdout


def test_a_clash_is_explained_and_has_its_exit_code(folder):
    result = run(folder / "short.toml", folder / "clash.toml", "--base", folder / "base.json")

    assert result.exit_code == 3
    assert "none: rules clash" in result.stdout
    assert "pin" in result.stdout.split("no plan keeps all rules (proven).")[1]


def test_the_changed_plan_can_be_saved(folder):
    out = folder / "changed.json"

    result = run(
        folder / "short.toml", folder / "cup.toml", "--base", folder / "base.json", "--out", out
    )

    document = json.loads(out.read_text())
    assert result.exit_code == 0
    assert document["breaches"] == []
    assert (
        document["scenario"]["digest"]
        != json.loads((folder / "base.json").read_text())["scenario"]["digest"]
    )


def test_a_base_of_another_season_is_said_and_planned_anew(folder, monkeypatch, short_plan):
    asked = []

    def solve(loaded, rules, settings):
        asked.append(loaded.path)
        return module.Outcome("planned", short_plan, (), 0.0)

    monkeypatch.setattr(module, "solve_shown", solve)

    result = run(folder / "short.toml", folder / "cup.toml", "--base", folder / "changed.json")

    assert "was made for another season" in result.stderr
    assert asked == [folder / "short.toml"]


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((), "name a file of changes"),
        (("--congest", "--drop", "2026-10-03"), "leave the changes out"),
        (("--congest", "--rounds", "2", "--cup-rounds", "x.csv"), "not both"),
    ],
)
def test_options_that_do_not_go_together_are_refused(folder, arguments, said):
    result = run(folder / "short.toml", *arguments)

    assert result.exit_code == 2
    assert said in result.stderr
