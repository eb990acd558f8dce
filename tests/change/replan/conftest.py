import pytest

from cli.files.scenario_rules import read_rules
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import solve_season


@pytest.fixture(scope="session")
def season(minimal):
    return minimal.season


@pytest.fixture(scope="session")
def rules(minimal):
    return read_rules(minimal)


@pytest.fixture(scope="session")
def plan(season, rules):
    """The best plan of the smallest demo season."""
    return solve_season(season, rules, Settings(quick=True)).plan
