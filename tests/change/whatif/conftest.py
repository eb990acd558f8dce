import pytest

from cli.files.scenario_file import load_scenario, read_scenario
from cli.files.scenario_rules import read_rules
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import solve_season

SHORT = """\
name = "Brookmere Autumn"
first_monday = 2026-08-31
weeks = 7
fixtures = [ { date = 2026-10-03, opponent = "Tolland" },
             { date = 2026-10-17, opponent = "Ashby Vale", priority = "high" } ]
"""
#: Two breaks, a clock change (25 October 2026) and a year with a week 53.
WINTER = """\
name = "Brookmere Winter"
first_monday = 2026-10-05
weeks = 14
fixtures = [ { date = 2026-10-24, opponent = "Tolland", kickoff = "15:00:00" },
             { date = 2026-12-30, opponent = "Ashby Vale", priority = "high" } ]
[[breaks]]
kind = "rest"
first = 2026-11-02
last = 2026-11-22
[[breaks]]
kind = "exams"
first = 2026-12-07
last = 2026-12-13
"""


@pytest.fixture(scope="session")
def short_file(tmp_path_factory):
    path = tmp_path_factory.mktemp("whatif") / "short.toml"
    path.write_text(SHORT)
    return path


@pytest.fixture(scope="session")
def short(short_file):
    return read_scenario(short_file)


@pytest.fixture(scope="session")
def short_rules(short):
    return read_rules(short)


@pytest.fixture(scope="session")
def short_plan(short, short_rules):
    """The best plan of the short season."""
    return solve_season(short.season, short_rules, Settings(quick=True)).plan


@pytest.fixture(scope="session")
def winter(tmp_path_factory):
    return load_scenario(WINTER, tmp_path_factory.mktemp("winter") / "winter.toml")
