"""A search without time gives back what it was given, and a short one goes to its end."""

from dataclasses import replace

import pytest

from cli.files.scenario_file import read_scenario
from cli.files.scenario_rules import read_rules
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.search import search
from optimiser.joint_model.solve import solve_season
from tests.benchmarks.batch_seasons import season_text


@pytest.fixture
def groups(knapsack):
    """Return the choices of the knapsack, as those of one week."""
    return [list(range(len(knapsack.lower)))]


def test_without_time_nothing_is_said_of_what_is_not_known(knapsack, groups):
    found = search(knapsack, [], groups, Settings(seconds=0.0))

    assert (found.status, found.values, found.objective) == ("unknown", [], None)


def test_a_short_season_is_searched_to_its_end_whatever_gap_is_asked(knapsack, groups):
    wide, end = Settings(close=0.5), Settings().to_the_end()

    found, best = (search(knapsack, [], groups, each) for each in (wide, end))

    assert found.objective == best.objective
    assert found.near(1e-4)
    late = search(knapsack, found.values, groups, replace(wide, seconds=0.0))
    assert late.values == found.values
    assert late.hit_wall


def test_nor_is_it_left_unproven_for_want_of_effort(tmp_path):
    """With one step alone a plan of this season was 3 % dearer than another."""
    (tmp_path / "short.toml").write_text(season_text(356), encoding="utf-8")
    made = read_scenario(tmp_path / "short.toml")

    hurried = solve_season(made.season, read_rules(made), Settings(steps=1))

    assert hurried.verdict.status == "proven"
