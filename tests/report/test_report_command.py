import json
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner
from pypdf import PdfReader

from cli.commands.audit import audit_command
from cli.commands.report import report_command


@pytest.fixture(scope="module")
def files(small, tmp_path_factory):
    """The small season and its plan, saved."""
    plan = tmp_path_factory.mktemp("saved") / "plan.json"
    plan.write_text(small.document.model_dump_json(), encoding="utf-8")
    return [str(small.loaded.path), str(plan)]


@pytest.fixture(scope="module")
def written(files, tmp_path_factory):
    """Everything, written once."""
    folder = tmp_path_factory.mktemp("written") / "deep" / "down"
    return folder, run(files, "-o", folder)


def run(files, *more):
    return CliRunner().invoke(report_command, [*files, *map(str, more)])


def names(folder):
    return sorted(path.name for path in folder.iterdir())


def test_all_kinds_are_written_unless_some_are_asked_for(written):
    folder, result = written

    assert result.exit_code == 0, result.output
    assert names(folder) == [
        "report.html", "season.ics", "season.pdf", "season.png", "season.svg", "season.xlsx",
    ]  # fmt: skip
    assert sorted(result.stdout.split()) == sorted(map(str, folder.iterdir()))


def test_only_what_is_asked_for_is_written(files, tmp_path):
    run(files, "-o", tmp_path / "some", "--ics", "--xlsx")

    assert names(tmp_path / "some") == ["season.ics", "season.xlsx"]


def test_the_printout_is_two_a3_sheets_and_a4_pages_for_the_open_weeks(written):
    reader = PdfReader(written[0] / "season.pdf")
    sizes = [
        (round(float(p.mediabox.width)), round(float(p.mediabox.height))) for p in reader.pages
    ]

    assert sizes[:2] == [(1191, 842)] * 2
    assert set(sizes[2:]) == {(595, 842)}
    assert len(sizes) == 2 + 14 // 2
    assert "Southlea" in reader.pages[5].extract_text()


def test_another_plan_is_drawn_beside_it(files, tmp_path):
    result = run(files, "-o", tmp_path / "two", "--svg", "--html", "--against", files[1])

    assert result.exit_code == 0, result.output
    assert names(tmp_path / "two") == ["comparison.svg", "report.html", "season.svg"]
    assert "No week changes." in (tmp_path / "two" / "report.html").read_text(encoding="utf-8")


def test_a_plan_of_other_weeks_cannot_be_drawn_beside_it(files, hard, tmp_path):
    other = tmp_path / "other.json"
    other.write_text(hard.document.model_dump_json(), encoding="utf-8")
    result = run(files, "-o", tmp_path, "--png", "--against", other)

    assert result.exit_code == 1
    assert "must have the same weeks" in result.stderr


@pytest.mark.parametrize(
    ("option", "value"),
    [("--timezone", "Mars/Crater"), ("--field-at", "25:00"), ("--gym-at", "noon")],
)
def test_a_wrong_zone_or_time_is_bad_usage(files, tmp_path, option, value):
    result = run(files, "-o", tmp_path, "--ics", option, value)

    assert result.exit_code == 2
    assert option in result.stderr
    assert value in result.stderr


def test_a_folder_that_cannot_be_made_is_told(files, tmp_path):
    (tmp_path / "file").write_text("")
    result = run(files, "-o", tmp_path / "file" / "below", "--ics")

    assert result.exit_code == 1
    assert "Traceback" not in result.output


def test_what_the_search_proved_is_told_only_if_it_can_be_met_again(small, files, tmp_path):
    told = json.loads(small.document.model_dump_json())
    parts = dict.fromkeys(("readiness", "bands", "amounts", "steadiness", "blocks", "rules"), 0.0)
    told["season"] = {
        "cost": 1,
        "bound": 1,
        "gap": 0,
        "status": "proven",
        "decided_by": "proof",
        "parts": parts,
    }
    told["status"] = "proven"
    (tmp_path / "plan.json").write_text(json.dumps(told), encoding="utf-8")
    run([files[0], str(tmp_path / "plan.json")], "-o", tmp_path, "--html")

    assert "Proven" not in (tmp_path / "report.html").read_text(encoding="utf-8")


def test_audit_reads_the_workbook_back(files, written):
    by_json, by_sheet = (
        CliRunner().invoke(audit_command, [files[0], str(plan), "--no-optimum", "--format", "json"])
        for plan in (files[1], written[0] / "season.xlsx")
    )

    assert by_sheet.exit_code == by_json.exit_code
    assert json.loads(by_sheet.stdout) == json.loads(by_json.stdout)


def test_what_draws_and_writes_is_not_loaded_by_help():
    code = (
        "import sys, cli.main, cli.files.plan_file\n"
        "heavy = {'matplotlib', 'jinja2', 'openpyxl', 'starlette'} & set(sys.modules)\n"
        "sys.exit(str(heavy) if heavy else 0)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=Path(__file__).parents[2], capture_output=True, text=True
    )

    assert done.returncode == 0, done.stderr
