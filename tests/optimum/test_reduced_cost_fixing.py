"""What reduced-cost fixing leaves out is only what is dearer, tried on every solution."""

import itertools
import random

import pytest

from optimiser.board.model import Model
from optimiser.engine.large_neighbourhood_search import Neighbourhoods
from optimiser.engine.objective import value_of
from optimiser.engine.reduced_cost_fixing import without_dearer

SIZE = 7


def covering(seed):
    """Return a model of few variables by chance, and all its solutions with their costs."""
    draw, model = random.Random(seed), Model()
    every = [model.var(0, draw.choice((1, 1, 2)), f"v{number}") for number in range(SIZE)]
    for var in every:
        model.cost[var] = draw.randint(500, 9000)
    for _ in range(4):
        some = draw.sample(every, 4)
        model.at_least({var: draw.randint(1, 3) for var in some}, draw.randint(2, 4))
    ranges = [range(high + 1) for high in model.upper]
    solutions = [list(values) for values in itertools.product(*ranges) if kept(model, values)]
    return model, {tuple(each): value_of(model, each) for each in solutions}


def kept(model, values):
    """Tell whether values keep all rows."""
    sums = [sum(k * values[var] for var, k in row.terms.items()) for row in model.rows]
    return all(total >= row.low for total, row in zip(sums, model.rows, strict=True))


def narrowed(model, under, keep):
    """Return the model without what is dearer, and how many choices went."""
    relaxed = Neighbourhoods(model, [range(SIZE)]).relaxed()
    small = without_dearer(model, relaxed, under, keep)
    pairs = ((model.lower, small.lower), (model.upper, small.upper))
    return small, sum(a != b for was, now in pairs for a, b in zip(was, now, strict=True))


def inside(model, values):
    """Tell whether values are within a model's bounds."""
    bounds = zip(model.lower, values, model.upper, strict=True)
    return all(low <= value <= high for low, value, high in bounds)


@pytest.mark.parametrize("share", [1.0, 0.95])
def test_no_cheaper_solution_is_lost(share):
    """Of 40 models every solution under the cost stays, and the one at hand; much else goes."""
    gone = 0
    for seed in range(40):
        model, costs = covering(seed)
        draw = random.Random(seed)
        at_hand = draw.choice(sorted(costs, key=costs.__getitem__)[:5])
        under = share * costs[at_hand]
        small, left_out = narrowed(model, under, at_hand)
        gone += left_out
        assert inside(small, at_hand)
        assert all(inside(small, each) for each, cost in costs.items() if cost < under)
    assert gone > 40


def test_nothing_is_left_out_where_the_bound_is_no_bound():
    """A relaxation that was cut off leaves the model as it is."""
    model, costs = covering(1)
    at_hand = min(costs, key=costs.__getitem__)
    relaxed = Neighbourhoods(model, [range(SIZE)]).relaxed(seconds=0.0)
    if relaxed.bound:
        pytest.skip("the solver was done before it could be cut off")
    assert without_dearer(model, relaxed, costs[at_hand], at_hand) is model
