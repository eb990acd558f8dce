from pathlib import Path

import pytest

from cli.files.scenario_file import read_scenario
from cli.files.scenario_rules import read_rules
from optimiser.board.outline import open_stretches
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose

SCENARIOS = Path(__file__).parents[1] / "scenarios"


@pytest.fixture(scope="session")
def minimal():
    """Fourteen weeks of the smallest demo season."""
    return read_scenario(SCENARIOS / "minimal.toml")


@pytest.fixture(scope="session")
def impossible():
    """Sixteen weeks with two of rest in the middle."""
    return read_scenario(SCENARIOS / "impossible.toml")


@pytest.fixture(scope="session")
def usual_rules(minimal):
    return read_rules(minimal)


@pytest.fixture(scope="session")
def plain_plan():
    return make_plain_plan


def make_plain_plan(season, rung=0, dose=Dose.TOUCH, length=4):
    """Everything on one rung at one dose, in blocks of one length, a session of each kind."""
    opened = [not week.closed for week in season.weeks]
    row = tuple(rung if here else None for here in opened)
    doses = tuple(dose if here else Dose.NONE for here in opened)
    return Plan(
        starts=tuple(
            week
            for stretch in open_stretches(season)
            for week in stretch
            if (week - stretch.start) % length == 0
        ),
        rungs=(row,) * len(season.qualities),
        doses=(doses,) * len(season.qualities),
        field=tuple(map(int, opened)),
        gym=tuple(map(int, opened)),
    )
