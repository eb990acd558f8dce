"""Another solver confirms what is best and refutes what is not."""

import itertools

import pytest

from optimiser.engine.objective import value_of
from optimiser.joint_model.certify import confirmed


@pytest.fixture
def ways(knapsack):
    """Return every solution, the cheapest first."""
    (row,) = knapsack.rows
    every = itertools.product((0, 1), repeat=8)
    legal = (way for way in every if sum(f * way[v] for v, f in row.terms.items()) >= row.low)
    return sorted(map(list, legal), key=lambda way: value_of(knapsack, way))


def test_the_best_is_confirmed(knapsack, ways):
    assert confirmed(knapsack, ways[0], value_of(knapsack, ways[0]), 20.0) is True


def test_what_is_not_the_best_is_refuted(knapsack, ways):
    dearer = next(way for way in ways if value_of(knapsack, way) > value_of(knapsack, ways[0]))

    assert confirmed(knapsack, dearer, value_of(knapsack, dearer), 20.0) is False
