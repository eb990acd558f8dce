import shutil

import pytest
from click.testing import CliRunner

from cli.main import main
from cli.season.folder import Folder

#: Ten weeks with a final in the last and a friendly midway; comments and columns of its own.
FIXTURES = """\
date,kickoff,opponent,priority,bus
2027-03-20,15:00,Ashdale,low,Green
2027-03-27,15:00,Brackmoor,low,
2027-04-03,,Corrin,low,Green
2027-04-10,15:00,"Dunmere, the old ground",high,
"""
SEASON = """\
# Kept by the lead of strength and conditioning.
name = "Short spring"
first_monday = 2027-02-01
weeks = 10
fixtures_file = "fixtures.csv"  # ask the secretary
squad_file = "squad.csv"

[rules.deload]
every = 5  # a week of half term
"""


def invoke(*arguments):
    return CliRunner().invoke(main, [*map(str, arguments)])


@pytest.fixture(scope="session")
def planned_folder(tmp_path_factory):
    """A season folder with a plan in force, to be copied."""
    path = tmp_path_factory.mktemp("season") / "club"
    path.mkdir()
    (path / "fixtures.csv").write_text(FIXTURES)
    (path / "season.toml").write_text(SEASON)
    result = invoke("plan", path, "--today", "2027-01-30")
    assert result.exit_code == 0, result.output
    return path


#: What is left of the usual qualities where a season is to be planned quickly.
LEFT_OUT = ("resisted_sprint", "plyometrics", "max_strength", "general_strength")
FEW = "\n[qualities]\n" + "".join(f"{key}.use = false\n" for key in LEFT_OUT)


@pytest.fixture(scope="session")
def quick_folder(tmp_path_factory):
    """The same with two qualities, which is planned in no time."""
    path = tmp_path_factory.mktemp("season") / "quick"
    path.mkdir()
    (path / "fixtures.csv").write_text(FIXTURES)
    (path / "season.toml").write_text(SEASON + FEW)
    (path / "squad.csv").write_text("name,group,body_mass_kg\n")
    result = invoke("plan", path, "--today", "2027-01-30")
    assert result.exit_code == 0, result.output
    return path


@pytest.fixture
def club(quick_folder, tmp_path):
    """A season folder of one test's own, before its first week; with two qualities."""
    return _copied(quick_folder, tmp_path)


@pytest.fixture
def full_club(planned_folder, tmp_path):
    """The same with all six."""
    return _copied(planned_folder, tmp_path)


def _copied(folder, place):
    shutil.copytree(folder, place / "club")
    return Folder(place / "club")
