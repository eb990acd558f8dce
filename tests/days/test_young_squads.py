"""Where the squad file lists under-18s, no two days with a session are in a row."""

from pathlib import Path

import pytest

from cli.days import week_maker
from cli.files.scenario_file import read_scenario
from cli.files.scenario_rules import read_rules

SQUAD = "name,group,body_mass_kg,age\nAda,squad,60,{age}\nBea,squad,62,25\n"
SEASON = """\
name = "Brookmere"
first_monday = 2026-08-31
weeks = 6
squad_file = "squad.csv"
"""


def maker(folder: Path, age: int | None):
    (folder / "season.toml").write_text(SEASON)
    if age is not None:
        (folder / "squad.csv").write_text(SQUAD.format(age=age))
    loaded = read_scenario(folder / "season.toml")
    return week_maker(loaded, read_rules(loaded))


@pytest.mark.parametrize(("age", "apart"), [(17, 2), (18, 1), (None, 1)])
def test_days_with_sessions_are_apart_by_the_youngest(tmp_path, age, apart):
    assert maker(tmp_path, age).settings.session_days == apart
