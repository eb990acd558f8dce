import csv
import io
import json
import os
import re
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from click.testing import CliRunner

from cli.commands.batch import batch_command
from optimiser.batch.row import COLUMNS

ROOT = Path(__file__).parents[2]
#: Statuses of seasons with a plan.
PLANNED = {"proven", "within_gap"}
CLASH = "[rules.session_caps.in_season]\nfield = 0\ngym = 0\n"


def season(folder, name, weeks=8, more="", day=29):
    path = folder / f"{name.lower()}.toml"
    path.write_text(
        f'name = "{name}"\nfirst_monday = 2026-07-06\nweeks = {weeks}\n'
        f'[[fixtures]]\ndate = 2026-08-{day}\npriority = "high"\n{more}'
    )
    return path


@pytest.fixture
def folder(tmp_path):
    held = tmp_path / "seasons"
    held.mkdir()
    return held


def run(*words):
    return CliRunner().invoke(batch_command, [str(word) for word in words])


def table_of(text):
    return list(csv.DictReader(io.StringIO(text)))


def test_it_says_how_far_it_has_read_and_then_how_far_it_has_planned(folder, monkeypatch):
    season(folder, "North")
    season(folder, "South", day=22)
    shown = []
    monkeypatch.setattr(
        "cli.commands.batch.ProgressLine.show", lambda _, words: shown.append(words)
    )

    run(folder, "--jobs", 1)

    assert shown[:3] == ["reading season 1 of 2", "reading season 2 of 2", "0 of 2 rows"]
    assert shown[-1].startswith("2 of 2 rows")


def test_every_season_meets_every_rule_set(folder, tmp_path):
    season(folder, "North")
    season(folder, "South", day=22)
    strict = tmp_path / "strict.toml"
    strict.write_text("[rules.load_ramp]\npercent = 5\nallowance = 100\n")
    none = tmp_path / "none.toml"
    none.write_text(CLASH)

    told = run(folder, "--rules", strict, "--rules", none, "--jobs", 2, "--format", "csv")

    assert told.exit_code == 0, told.output
    rows = table_of(told.stdout)
    assert [(row["season"], row["rules"]) for row in rows] == [
        (name, rules) for name in ("North", "South") for rules in ("as written", "strict", "none")
    ]
    status = {row["rules"]: row["status"] for row in rows}
    assert status.pop("none") == "clash"
    assert status.keys() == {"as written", "strict"}
    assert set(status.values()) <= PLANNED


def test_a_bad_file_costs_its_own_rows_and_the_exit_code(folder):
    season(folder, "Good")
    season(folder, "Broken", more="weeks = = 3\n")
    season(folder, "Odd", more="[rules.pin]\nchoices = [{ week = 40 }]\n")

    told = run(folder, "--format", "json", "--jobs", 1)

    assert told.exit_code == 1
    rows = {row["file"].split("/")[-1]: row for row in json.loads(told.stdout)["rows"]}
    assert rows["good.toml"]["status"] in PLANNED
    assert rows["broken.toml"]["status"] == rows["odd.toml"]["status"] == "bad_file"
    assert "must be TOML" in rows["broken.toml"]["why_not"]


def test_the_table_lists_plans_and_clashes(folder):
    season(folder, "Good")
    season(folder, "Never", more=CLASH)

    told = run(folder, "--jobs", 1)

    assert told.exit_code == 0
    assert "Plans, best match score first." in told.stdout
    assert re.search(
        r"2 rows of 2 solves, 1 with a plan: 1 (proven|within 1 %), 1 rules clash\.", told.stdout
    )


def test_equal_seasons_share_one_solve(folder):
    season(folder, "First")
    season(folder, "Second")

    told = run(folder, "--jobs", 1)

    assert "2 rows of 1 solves" in told.stdout


def test_results_and_plans_are_kept_and_resume_solves_nothing_again(folder, tmp_path):
    season(folder, "First")
    season(folder, "Never", more=CLASH)
    out = tmp_path / "r.csv"
    first = run(folder, "--out", out, "--jobs", 1)
    rows, table = (tmp_path / "r.rows.jsonl").read_bytes(), out.read_text()
    season(folder, "Third", day=22)

    again = run(folder, "--out", out, "--jobs", 1, "--resume")

    assert (first.exit_code, again.exit_code) == (0, 0)
    assert f"Wrote {out}" in first.stderr
    kept = (tmp_path / "r.rows.jsonl").read_bytes()
    assert kept.startswith(rows)
    assert len(kept.splitlines()) == 3
    assert out.read_text().startswith(table)
    assert json.loads(rows.splitlines()[0])["plan"]["rungs"]
    assert tuple(table_of(table)[0]) == COLUMNS


def test_other_rules_are_solved_anew_on_resume(folder, tmp_path):
    path = season(folder, "First")
    run(path, "--out", tmp_path / "r.csv", "--jobs", 1)
    season(folder, "First", more="[rules.load_ramp]\npercent = 19\n")

    run(path, "--out", tmp_path / "r.csv", "--jobs", 1, "--resume")

    assert len((tmp_path / "r.rows.jsonl").read_bytes().splitlines()) == 2


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (["--resume"], 2, "--resume needs --out"),
        (["--out", "r.xlsx"], 2, ".parquet, .csv or .json"),
        (["--out", "nowhere/r.csv"], 1, "Make the folder first"),
        (["--rules", "missing.toml"], 1, "must exist"),
        (["--jobs", "0"], 2, "--jobs"),
        (["--scheduler", "no address"], 2, "Dask scheduler"),
    ],
)
def test_what_cannot_work_is_told_before_any_work(folder, monkeypatch, words, code, said):
    monkeypatch.setattr("optimiser.batch.cluster.PATIENCE", 1)
    season(folder, "First")

    told = run(folder, *words)

    assert told.exit_code == code, told.output
    assert said in told.stderr
    assert told.stdout == ""


def test_a_folder_without_seasons_is_told(folder):
    told = run(folder)

    assert told.exit_code == 1
    assert "must hold scenario files" in told.stderr


def test_a_rule_set_in_the_folder_is_no_season(folder):
    season(folder, "First")
    (folder / "strict.toml").write_text("[rules.load_ramp]\npercent = 15\n")

    told = run(folder, "--rules", folder / "strict.toml", "--jobs", 1, "--format", "csv")

    assert [row["rules"] for row in table_of(told.stdout)] == ["as written", "strict"]


@pytest.mark.skipif(sys.platform == "win32", reason="sends a signal to a group of processes")
def test_a_batch_that_is_broken_off_goes_on_where_it_was(folder, tmp_path):
    for number in range(10):
        season(folder, f"Club{number}", day=10 + number)
    rows = tmp_path / "r.rows.jsonl"
    words = ["batch", str(folder), "--out", str(tmp_path / "r.csv"), "--jobs", "1"]
    command = [sys.executable, "-m", "cli", *words]
    begun = subprocess.Popen(command, cwd=ROOT, stderr=subprocess.PIPE, start_new_session=True)
    for _ in range(1200):
        if rows.exists() and rows.read_bytes().count(b"\n") >= 2:
            break
        time.sleep(0.05)
    os.killpg(begun.pid, signal.SIGINT)
    _, said = begun.communicate(timeout=60)
    kept = rows.read_bytes()

    told = run(*words[1:], "--resume", "--format", "csv")

    assert begun.returncode == 130, said
    assert b"--resume goes on from there" in said
    assert b"Traceback" not in said
    assert 2 <= kept.count(b"\n") < 10
    assert rows.read_bytes().startswith(kept[: kept.rfind(b"\n") + 1])
    assert {row["status"] for row in table_of(told.stdout)} <= PLANNED
    assert len(table_of(told.stdout)) == 10


@pytest.mark.parametrize(("name", "begins"), [("all.png", b"\x89PNG"), ("all.svg", b"<?xml")])
def test_a_chart_of_all_rows_is_drawn(folder, tmp_path, name, begins):
    season(folder, "Ashby")

    result = run(folder, "--jobs", 1, "--effort", 0.05, "--picture", tmp_path / name)

    assert result.exit_code == 0
    assert (tmp_path / name).read_bytes().startswith(begins)


def test_a_chart_of_another_kind_is_refused_before_any_solve(folder, tmp_path):
    season(folder, "Ashby")

    result = run(folder, "--picture", tmp_path / "all.gif")

    assert result.exit_code == 2
    assert "must end in .png or .svg" in result.output
