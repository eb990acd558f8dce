"""Files that are too big, or would be once unpacked, are refused before they are read."""

import zipfile

import pytest
from click.testing import CliRunner
from openpyxl import Workbook

from cli.files.errors import InputError
from cli.files.plan_xlsx import MOST_UNPACKED, read_plan_xlsx
from cli.main import main

HEAD = 'name = "T"\nfirst_monday = 2026-08-31\nweeks = 12\n'
TEN_MB = 10_000_000
#: Names of files, and the words of a command that reads each.
READ = {
    "big.toml": "plan big.toml",
    "list.csv": "plan season.toml",
    "list.ics": "plan season.toml",
    "plan.json": "audit small.toml plan.json",
    "plan.csv": "audit small.toml plan.csv",
    "plan.xlsx": "audit small.toml plan.xlsx",
    "squad.csv": "cards small.toml plan.json --week 1 --squad squad.csv",
    "tests.csv": "fit tests.csv",
}


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "small.toml").write_text(HEAD + "[[fixtures]]\ndate = 2026-10-10\n")
    return tmp_path


@pytest.mark.parametrize("name", READ)
def test_ten_megabytes_are_refused_by_their_size(folder, name):
    (folder / "season.toml").write_text(f'{HEAD}fixtures_file = "{name}"\n')
    with (folder / name).open("wb") as file:
        file.truncate(TEN_MB)

    done = CliRunner().invoke(main, READ[name].split())

    assert done.exit_code == 1
    assert f"{name}: must be at most 5 MB (got 10.0 MB)" in done.stderr


@pytest.fixture
def workbook(tmp_path):
    """Return a small workbook with the sheet a plan is read from."""
    book = Workbook()
    book.active.title = "Season"
    book.save(tmp_path / "plan.xlsx")
    return tmp_path / "plan.xlsx"


@pytest.mark.parametrize("part", ["xl/sharedStrings.xml", "xl/worksheets/sheet1.xml", "other.bin"])
def test_a_workbook_that_unpacks_to_far_more_is_refused(workbook, minimal, usual_rules, part):
    with (
        zipfile.ZipFile(workbook, "a", zipfile.ZIP_DEFLATED) as packed,
        packed.open(part if part not in packed.namelist() else f"{part}2", "w") as file,
    ):
        for _ in range(MOST_UNPACKED // 1_000_000 + 1):
            file.write(bytes(1_000_000))

    assert workbook.stat().st_size < 200_000
    with pytest.raises(InputError, match=r"unpacks to 5\d MB"):
        read_plan_xlsx(workbook, minimal.season, usual_rules)


def test_a_size_that_is_a_lie_does_not_help(workbook, minimal, usual_rules):
    with zipfile.ZipFile(workbook) as packed:
        parts = {name: packed.read(name) for name in packed.namelist()}
    parts["xl/worksheets/sheet1.xml"] = b"<worksheet>" + b" " * 60_000_000
    with zipfile.ZipFile(workbook, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, data in parts.items():
            packed.writestr(name, data)
        packed.getinfo("xl/worksheets/sheet1.xml").file_size = 1000

    with pytest.raises(InputError, match="must be a workbook"):
        read_plan_xlsx(workbook, minimal.season, usual_rules)


# Each of nine entities stands for ten of the one before it.
LAUGHS = (
    b'<?xml version="1.0"?><!DOCTYPE x [<!ENTITY e0 "aaaaaaaaaa">'
    + b"".join(b'<!ENTITY e%d "%s">' % (n, b"&e%d;" % (n - 1) * 10) for n in range(1, 10))
    + b"]><worksheet><sheetData>&e9;</sheetData></worksheet>"
)


def test_entities_that_multiply_are_not_followed(workbook, minimal, usual_rules):
    with zipfile.ZipFile(workbook) as packed:
        parts = {name: packed.read(name) for name in packed.namelist()}
    parts["xl/worksheets/sheet1.xml"] = LAUGHS
    with zipfile.ZipFile(workbook, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, data in parts.items():
            packed.writestr(name, data)

    with pytest.raises(InputError):
        read_plan_xlsx(workbook, minimal.season, usual_rules)
