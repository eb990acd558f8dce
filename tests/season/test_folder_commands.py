"""A season folder stands wherever a scenario does, and what is applied can be used at once."""

import json

import pytest

from cli.files.scenario_file import read_scenario
from tests.conftest import SCENARIOS
from tests.season.conftest import invoke

EARLY = ("--today", "2027-01-30")
MOVE = ("--move", "2027-04-10=2027-04-09")


def applied(club, *arguments):
    result = invoke("whatif", club.path, *EARLY, *arguments, "--apply")
    assert result.exit_code == 0, result.output
    return result


@pytest.mark.parametrize(
    "command",
    [
        ("audit", "--no-optimum"),
        ("week", "--week", 3),
        ("why", "--quality", "sprint", "--week", 3),
        ("plan", "--to", 2),
    ],
)
def test_a_command_takes_the_folder_where_it_takes_a_scenario_and_a_plan(club, command):
    name, *options = command

    result = invoke(name, club.path, *options, *EARLY)

    assert result.exit_code == 0, result.output


def test_what_is_applied_can_be_used_by_every_other_command(club, tmp_path):
    applied(club, *MOVE)

    for name, *options in (
        ("audit", "--no-optimum"),
        ("week", "--week", 10),
        ("report", "--html", "-o", tmp_path / "out"),
    ):
        result = invoke(name, club.path, *options, *EARLY)
        assert result.exit_code == 0, result.output
    plan = json.loads(club.plan.read_text())
    assert plan["scenario"]["digest"] == read_scenario(club.scenario).digest
    assert plan["weeks"][9]["fixtures"][0]["date"] == "2027-04-09"


def test_a_change_of_nothing_costs_nothing_once_something_else_was_done_than_planned(club):
    late = ("--today", "2027-03-15")
    for day in ("2027-02-09", "2027-02-16", "2027-02-23"):
        invoke("done", club.path, *late, "--what", "sprint", "--dose", "missed", "--date", day)

    told = invoke("whatif", club.path, *late, "--rank", "2027-04-03=low", "--format", "json")

    figures = json.loads(told.stdout)
    was, (now,) = figures["base"]["season"], figures["changes"]
    assert now["weeks"] == []
    assert was["cost"] == pytest.approx(now["season"]["cost"])


def test_a_priority_that_is_none_is_told_in_plain_words(club):
    told = invoke("whatif", club.path, *EARLY, "--rank", "2027-04-03=urgent")

    assert told.exit_code == 2
    assert "priority: must be 'peak', 'high', 'medium' or 'low'" in told.stderr


def test_undo_and_redo_at_the_command_line(club):
    before = club.now()
    applied(club, *MOVE)
    after = club.now()

    undone = invoke("undo", club.path)
    assert club.now() == before
    again = invoke("redo", club.path)

    assert club.now() == after
    assert "Took back whatif" in undone.stdout
    assert "Did again whatif" in again.stdout
    assert "nothing to redo" in invoke("redo", club.path).stdout


def test_versions_are_listed_named_compared_and_restored(club):
    before = club.now()
    applied(club, *MOVE)

    invoke("versions", club.path, "--name", "final on Friday")
    listed = invoke("versions", club.path).stdout
    compared = invoke("versions", club.path, "--compare", 2, 3).stdout
    restored = invoke("versions", club.path, "--restore", 2)

    assert "final on Friday" in listed
    assert "+2027-04-09" in compared
    assert restored.exit_code == 0
    assert club.now() == before


def test_a_fixture_list_that_is_edited_while_a_plan_is_searched_is_kept(club, monkeypatch):
    import cli.commands.whatif as module

    ask = module.ask
    rows = club.path / "fixtures.csv"

    def slow(*arguments):
        rows.write_text(rows.read_text() + "2027-04-12,19:30,Ellerby,low,\n")
        return ask(*arguments)

    monkeypatch.setattr(module, "ask", slow)
    result = invoke("whatif", club.path, *EARLY, *MOVE, "--apply")

    assert result.exit_code == 1
    assert "+2027-04-12,19:30,Ellerby" in result.stderr
    assert "2027-04-10,15:00" in rows.read_text()


def test_a_plan_that_is_already_in_force_stays_unless_it_is_asked_for(club):
    before = club.plan.read_bytes()

    shown = invoke("plan", club.path, *EARLY, "--seed", 3)
    assert club.plan.read_bytes() == before
    invoke("plan", club.path, *EARLY, "--seed", 3, "--apply")

    assert "--apply puts this one in its place" in shown.stderr
    assert json.loads(club.plan.read_text())["seed"] == 3


def test_a_scenario_that_stands_alone_keeps_its_changed_season_beside_the_plan(club, tmp_path):
    alone = tmp_path / "alone"
    alone.mkdir()
    for name in ("season.toml", "fixtures.csv", "plan.json"):
        (alone / name).write_bytes((club.path / name).read_bytes())
    (alone / "season.toml").rename(alone / "club.toml")

    saved = invoke(
        "whatif", alone / "club.toml", *MOVE, "--base", alone / "plan.json",
        "--out", alone / "moved.json",
    )  # fmt: skip
    used = invoke("week", alone / "moved.toml", alone / "moved.json", "--week", 10)

    assert saved.exit_code == 0, saved.output
    assert used.exit_code == 0, used.output
    assert "Match 15:00 against Dunmere" in used.stdout


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("undo", "{alone}"), "stands alone"),
        (("whatif", "{alone}", *MOVE, "--apply"), "needs a season folder"),
        (("week", "{alone}", "--week", 3), "Name PLAN, or a season folder"),
        (("plan", "{alone}", "--today", "2027-03-01"), "--today is for a season folder"),
        (("plan", "--today", "2027-03-01", "{alone}"), "--today is for a season folder"),
        (("plan", "{club}", "--today", "soon"), "must be a date such as"),
        (("replan", "{club}", "--week", 3), "a season folder knows the day"),
        (("versions", "{club}", "--of", 2), "--of says which version to --name"),
    ],
)
def test_what_cannot_be_is_said_in_a_line(club, tmp_path, arguments, said):
    alone = tmp_path / "alone.toml"
    alone.write_text(club.scenario.read_text().replace("fixtures.csv", "club/fixtures.csv"))

    result = invoke(*(str(each).format(alone=alone, club=club.path) for each in arguments))

    assert result.exit_code == 2
    assert said in result.stderr


def test_a_folder_without_a_season_is_told_how_to_get_one(tmp_path):
    result = invoke("plan", tmp_path)

    assert result.exit_code == 1
    assert "make one with `seasonwright new" in result.stderr.lower()


def test_new_makes_a_folder_with_files_to_fill_in(tmp_path, club):
    made = tmp_path / "made"

    result = invoke("new", "--fixtures", club.path / "fixtures.csv", "-o", made)

    assert result.exit_code == 0, result.output
    assert {path.name for path in made.iterdir()} == {
        "season.toml", "fixtures.csv", "squad.csv", "tests.csv", "availability.csv", "done.csv",
        "history.sqlite",
    }  # fmt: skip
    assert invoke("new", "--fixtures", club.path / "fixtures.csv", "-o", made).exit_code == 1
    (made / "plan.json").write_bytes(club.plan.read_bytes())
    used = invoke("week", made, club.plan, "--week", 2, "--today", "2027-01-01")
    assert "squad" not in used.stderr


def test_new_writes_over_no_list_that_somebody_keeps(tmp_path, club):
    made = tmp_path / "made"
    made.mkdir()
    (made / "fixtures.csv").write_text("date\n2027-05-01\n")

    result = invoke("new", "--fixtures", club.path / "fixtures.csv", "-o", made)

    assert result.exit_code == 1
    assert "must not be another list than the one given" in result.stderr
    assert [path.name for path in made.iterdir()] == ["fixtures.csv"]


def test_a_repair_is_put_in_force_with_its_plan(tmp_path):
    folder = tmp_path / "cup"
    folder.mkdir()
    text = (SCENARIOS / "impossible.toml").read_text()
    (folder / "season.toml").write_text(text)

    done = invoke("explain", folder, "--today", "2027-01-01", "--apply", 1)
    audited = invoke("audit", folder, "--today", "2027-01-01", "--no-optimum")
    invoke("undo", folder)

    assert done.exit_code == 0, done.output
    assert "No rule is broken." in audited.stdout
    assert (folder / "season.toml").read_text() == text
    assert not (folder / "plan.json").exists()


def test_how_much_was_done_changes_what_is_planned_on(club):
    plans = []
    for load in (500, 3000):
        club.done.write_text(
            f"date,what,load\n2027-03-17,practice,{load}\n2027-03-18,sprint,{load}\n"
        )
        told = invoke("replan", club.path, "--today", "2027-03-22", "--format", "json").stdout
        plans.append(json.loads(told)["plans"])

    least = [plan["A"]["match"]["score"] for plan in plans]
    assert least[0] > least[1]
    assert plans[0] != plans[1]


def test_a_plan_that_cannot_be_saved_after_all_is_printed_all_the_same(club, tmp_path, monkeypatch):
    import cli.commands.plan as module
    from cli.files.errors import InputError

    def full(path, data):
        raise InputError(
            path, "", "must be a place that can be written to", "disk full", "make room"
        )

    monkeypatch.setattr(module, "save", full)
    result = invoke("plan", club.path, *EARLY, "--to", 3, "--out", tmp_path / "plan.json")

    assert result.exit_code == 1
    assert "Match score" in result.stdout
    assert "disk full" in result.stderr


@pytest.mark.parametrize(
    "command",
    [
        ("plan", "--out", "{none}/plan.json"),
        ("whatif", *MOVE, "--out", "{none}/plan.json"),
        ("explain", "--apply", 1, "--out", "{none}/new.toml"),
        ("replan", "--out", "{none}"),
    ],
)
def test_where_to_write_is_looked_at_before_a_search(club, tmp_path, monkeypatch, command):
    def never(*_, **__):
        raise AssertionError("searched")

    for place in ("whatif.ask", "replan.trade_off", "explain.argue", "plan.solve_shown"):
        monkeypatch.setattr(f"cli.commands.{place}", never)

    name, *options = (str(part).format(none=tmp_path / "none") for part in command)
    result = invoke(name, club.path, *EARLY, *options)

    assert result.exit_code == 1
    assert "folder that is there" in result.stderr


def test_a_list_that_was_edited_by_hand_is_taken_in_by_replan_and_then_by_all(club):
    rows = club.path / "fixtures.csv"
    rows.write_text(rows.read_text().replace("2027-04-03,,Corrin", "2027-04-04,,Corrin"))
    day = ("--today", "2027-02-10")

    told = [invoke(name, club.path, *more, *day) for name, *more in (
        ("week", "--week", 3), ("whatif", "--drop", "2027-03-27"),
    )]  # fmt: skip
    shown = [invoke(name, club.path, *more, *day) for name, *more in (
        ("done",), ("audit", "--no-optimum"),
    )]  # fmt: skip
    taken = invoke("replan", club.path, *day, "--apply", "A")
    used = invoke("week", club.path, "--week", 3, *day)

    assert [result.exit_code for result in told] == [1, 1]
    assert all("`seasonwright replan" in " ".join(result.stderr.split()) for result in told)
    assert all(result.exception is None or result.exit_code == 1 for result in shown)
    assert all("digest" not in result.output for result in shown)
    assert (taken.exit_code, used.exit_code) == (0, 0)
