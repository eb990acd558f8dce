import pytest
from click.testing import CliRunner
from group_seasons import SHORT, SQUAD, TABLES, THREE, TWO

import cli.commands.groups
from cli.files.scenario_file import load_scenario
from cli.files.scenario_rules import read_rules
from cli.main import main
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


@pytest.fixture(scope="session")
def short_folder(three, tmp_path_factory):
    """A folder with the season, a squad and the groups' plans, and how `groups` told them."""
    made = tmp_path_factory.mktemp("seasons")
    (made / "short.toml").write_text(SHORT + TABLES)
    (made / "squad.csv").write_text(SQUAD)
    (made / "grouped.csv").write_text("".join(SQUAD.splitlines(keepends=True)[:-1]))
    asked = ["groups", made / "short.toml", "--squad", made / "squad.csv", "-o", made / "plans"]
    with pytest.MonkeyPatch.context() as patched:
        # the same season and rules, so what is found is the same too
        patched.setattr(cli.commands.groups, "solve_groups", lambda *_, **__: three[1])
        result = CliRunner().invoke(main, [*map(str, asked)])
    assert result.exit_code == 0, result.output
    return made, result
