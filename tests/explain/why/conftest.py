import pytest

from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import solve_season

QUICK = Settings(quick=True, seconds=60.0)


@pytest.fixture(scope="session")
def quick():
    return QUICK


@pytest.fixture(scope="session")
def planned(minimal, usual_rules):
    """The plan of the smallest demo season."""
    outcome = solve_season(minimal.season, usual_rules, QUICK)
    assert outcome.plan is not None
    return outcome.plan
