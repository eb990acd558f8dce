import pytest

from optimiser.solve import Settings, solve_season

QUICK = Settings(emphasis_effort=4.0, dose_effort=0.5, polish_effort=0.2, seconds=60.0)


@pytest.fixture(scope="session")
def quick():
    return QUICK


@pytest.fixture(scope="session")
def planned(minimal, usual_rules):
    """The plan of the smallest demo season."""
    outcome = solve_season(minimal.season, usual_rules, QUICK)
    assert outcome.plan is not None
    return outcome.plan
