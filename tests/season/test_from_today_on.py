"""Commands that plan many seasons at once plan one that has begun from today on."""

import csv
import io
import json

import pytest

from cli.files.plan_json import read_document
from cli.files.scenario_file import read_scenario
from optimiser.domain.document import to_plan
from tests.season.conftest import invoke
from tests.season.futures import FUTURES

TODAY = ("--today", "2027-03-24")


@pytest.fixture
def wrecked(club):
    """A season of which two weeks were missed, at a time that breaks rules no plan can mend."""
    days = [f"2027-03-{day:02d}" for day in (2, 9)]
    rows = [f"{day},{what},none" for day in days for what in ("sprint", "power")]
    club.done.write_text("\n".join(["date,what,dose", *rows, ""]))
    return club


def over(plan, weeks=7):
    return [row[:weeks] for row in (*plan.rungs, *plan.doses)]


def test_every_point_of_a_sweep_starts_from_what_was_done(wrecked):
    before = wrecked.now()

    result = invoke("sweep", wrecked.path, *TODAY, "--grid", "session_caps.in_season.gym=1,2",
                    "--jobs", 1)  # fmt: skip

    assert result.exit_code == 0, result.output
    assert "What was done stands; open from week 8 (2027-03-22) on." in result.stdout
    assert "rules clash" not in result.stdout
    assert wrecked.now() == before


def test_a_batch_plans_a_season_in_progress_as_plan_does(wrecked):
    row = next(csv.DictReader(io.StringIO(
        invoke("batch", wrecked.path, *TODAY, "--format", "csv", "--jobs", 1).stdout)))  # fmt: skip

    told = json.loads(invoke("plan", wrecked.path, *TODAY, "--format", "json").stdout)

    assert row["status"] in ("proven", "within_gap")
    assert float(row["match"]) == pytest.approx(told["match"]["score"], abs=1.0)


def test_a_batch_finds_the_season_folders_in_a_folder(club, tmp_path):
    told = invoke("batch", tmp_path, "--today", "2027-06-01", "--format", "csv", "--jobs", 1)

    row = next(csv.DictReader(io.StringIO(told.stdout)))
    assert (row["status"], row["season"]) == ("bad_file", "club")
    assert "must have a week that is not over yet" in row["why_not"]


def test_drawn_futures_leave_the_matches_that_were_played(wrecked):
    result = invoke("whatif", wrecked.path, *TODAY, "--congest", "--draws", 4, "--rounds", 1,
                    "--postpone", 1, "--jobs", 1, "--format", "json")  # fmt: skip

    assert result.exit_code == 0, result.output
    told = json.loads(result.stdout)
    days = [each["what"][-11:-1] for each in told["rounds"]]
    assert set(days) <= {"2027-03-31", "2027-04-07"}
    assert "2027-03-20" not in result.stdout


def test_futures_share_what_was_done_and_part_after_it(wrecked, tmp_path):
    file = tmp_path / "futures.toml"
    file.write_text(FUTURES.format(date="2027-03-31"))

    result = invoke("plan", wrecked.path, *TODAY, "--futures", file, "--out", tmp_path / "f.json")

    assert result.exit_code == 0, result.output
    season = read_scenario(wrecked.scenario).season
    before = to_plan(read_document(wrecked.plan), season)
    for branch in ("f-1.json", "f-2.json"):
        assert over(to_plan(read_document(tmp_path / branch), season)) == over(before)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (FUTURES.format(date="2027-03-10"), "must not lie before today"),
        (f"branch_week = 4\n{FUTURES.format(date='2027-03-31')}", "must be at least 8"),
    ],
)
def test_futures_cannot_part_in_the_past(club, tmp_path, text, said):
    file = tmp_path / "futures.toml"
    file.write_text(text)

    result = invoke("plan", club.path, *TODAY, "--futures", file)

    assert result.exit_code == 1
    assert said in result.stderr
