import pytest
from group_seasons import SHORT, THREE, TWO

from cli.files.scenario_file import load_scenario
from cli.files.scenario_rules import read_rules
from optimiser.groups.member import members_of
from optimiser.groups.solve import solve_groups


@pytest.fixture(scope="session")
def short(tmp_path_factory):
    path = tmp_path_factory.mktemp("groups") / "short.toml"
    path.write_text(SHORT)
    return load_scenario(SHORT, path)


@pytest.fixture(scope="session")
def rules(short):
    return read_rules(short)


@pytest.fixture(scope="session")
def two(short, rules):
    """Starters and those who do not play: members and what was found for them."""
    members = members_of(short.season, rules, TWO)
    return members, solve_groups(members)


@pytest.fixture(scope="session")
def three(short, rules):
    """One more group, which joins in the fourth week."""
    members = members_of(short.season, rules, THREE)
    return members, solve_groups(members)
