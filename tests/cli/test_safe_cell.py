"""CSV files never hold what a spreadsheet would take for a formula."""

import csv
import io

import pytest

from cli.files.plan_csv import plan_csv, read_plan_csv
from cli.files.safe_cell import plain_cell, safe_cell
from optimiser.describe import describe

EVIL = ["=1+1", "+cmd", "-2+3", "@SUM(A1)", "\t=1", "\r=1"]


@pytest.mark.parametrize("text", EVIL)
def test_what_looks_like_a_formula_becomes_text_and_reads_back(text):
    assert safe_cell(text) == f"'{text}"
    assert plain_cell(safe_cell(text)) == text


@pytest.mark.parametrize("value", [-3, -2.5, "-2.5", "+1", "S4", "", None, "o'clock", "'quoted"])
def test_numbers_and_plain_words_stay(value):
    assert safe_cell(value) == value


def test_a_plan_with_odd_codes_is_safe_and_reads_back(minimal, usual_rules, plain_plan, tmp_path):
    sprint = minimal.season.qualities[0]
    bands = (sprint.bands[0].model_copy(update={"code": "=S1", "label": "=HYPERLINK(1)"}),)
    odd = sprint.model_copy(update={"bands": (*bands, *sprint.bands[1:])})
    season = minimal.season.model_copy(
        update={"qualities": (odd, *minimal.season.qualities[1:])}
    )
    plan = plain_plan(season)
    told = describe(season, plan, (), None, digest="0", seed=0, versions={})
    file = tmp_path / "plan.csv"
    file.write_text(plan_csv(told))

    cells = [cell for row in csv.reader(io.StringIO(file.read_text())) for cell in row]
    assert not [cell for cell in cells if cell.startswith(("=", "+", "@"))]
    assert "'=S1" in cells
    assert read_plan_csv(file, season, usual_rules).rungs == plan.rungs
