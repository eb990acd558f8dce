"""A search without time gives back what it was given, and a short one goes to its end."""

from dataclasses import replace

import pytest

from optimiser.joint_model.effort import Settings
from optimiser.joint_model.search import search


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
