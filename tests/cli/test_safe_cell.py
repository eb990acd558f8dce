"""CSV files never hold what a spreadsheet would take for a formula."""

import csv
import io
import os
import subprocess
import sys

import pytest

from cli.files.errors import InputError
from cli.files.fixtures_file import read_fixtures_file
from cli.files.plan_csv import plan_csv, read_plan_csv
from cli.files.safe_cell import plain_cell, safe_cell
from optimiser.review.describe import describe

EVIL = ["'=x", "=1+1", "+cmd", "-2+3", "@SUM(A1)", "\t=1", "\r=1"]


@pytest.mark.parametrize("text", EVIL)
def test_what_looks_like_a_formula_becomes_text_and_reads_back(text):
    assert safe_cell(text) == f"'{text}"
    assert plain_cell(safe_cell(text)) == text


@pytest.mark.parametrize("value", [-3, -2.5, "-2.5", "+1", "S4", "", None, "o'clock", "'quoted"])
def test_numbers_and_plain_words_stay(value):
    assert safe_cell(value) == value


def test_fixtures_read_back_an_opponent_that_looks_like_a_formula(tmp_path):
    file = tmp_path / "fixtures.csv"
    file.write_text(f"date,opponent\n2026-09-05,{safe_cell('=Fable Town')}\n")

    (listed,) = read_fixtures_file(file)
    assert listed.fixture.opponent == "=Fable Town"


def test_a_named_pipe_is_refused_instead_of_waited_for(tmp_path):
    os.mkfifo(tmp_path / "fixtures.csv")

    with pytest.raises(InputError, match="named pipe"):
        read_fixtures_file(tmp_path / "fixtures.csv")


@pytest.mark.parametrize("closed", ["1", "2"])
def test_a_closed_stream_is_no_traceback(closed, tmp_path):
    told = tmp_path / "told"
    code = f"exec {closed}>&-; exec {sys.executable} -m cli rules"
    with told.open("w") as out:
        done = subprocess.run(["sh", "-c", code], stdout=out, stderr=out, timeout=60)

    assert done.returncode == 0
    assert "Traceback" not in told.read_text()


def test_a_plan_with_odd_codes_is_safe_and_reads_back(minimal, usual_rules, plain_plan, tmp_path):
    sprint = minimal.season.qualities[0]
    bands = (sprint.bands[0].model_copy(update={"code": "=S1", "label": "=HYPERLINK(1)"}),)
    odd = sprint.model_copy(update={"bands": (*bands, *sprint.bands[1:])})
    season = minimal.season.model_copy(update={"qualities": (odd, *minimal.season.qualities[1:])})
    plan = plain_plan(season)
    told = describe(season, plan, (), None, digest="0", seed=0, versions={})
    file = tmp_path / "plan.csv"
    file.write_text(plan_csv(told))

    cells = [cell for row in csv.reader(io.StringIO(file.read_text())) for cell in row]
    assert not [cell for cell in cells if cell.startswith(("=", "+", "@"))]
    assert "'=S1" in cells
    assert read_plan_csv(file, season, usual_rules).rungs == plan.rungs
