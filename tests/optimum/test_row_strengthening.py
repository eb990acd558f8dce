"""Tighter rows: the same whole-number points, a relaxation that ends at them."""

import itertools
from random import Random

import pytest

from optimiser.board.model import Model, Row, Tag
from optimiser.engine.relaxation import relaxation
from optimiser.engine.row_strengthening import strengthened
from tests.rows import holds


def made(rng, step):
    """Return a model of two or three sums of steps under one row, and the sums."""
    model, sums = Model(), []
    for part in range(rng.randint(2, 3)):
        flags = [model.flag(f"piece {part} {each}") for each in range(rng.randint(1, 3))]
        rest = rng.randint(0, step - 1)
        value = model.var(rest, rest + step * len(flags), f"sum {part}")
        model.equal({**dict.fromkeys(flags, step), value: -1}, -rest)
        sums.append(value)
    up, down = rng.randint(2, 9), rng.randint(2, 9)
    terms = {sums[0]: up, **dict.fromkeys(sums[1:], rng.choice((-1, 1)) * down)}
    if rng.random() < 0.5:
        model.at_most(terms, rng.randint(-30, 60))
    else:
        model.at_least({var: -each for var, each in terms.items()}, rng.randint(-60, 30))
    return model, sums


def points(model):
    """Return all points of flags and sums that keep every row."""
    spans = [range(low, high + 1) for low, high in zip(model.lower, model.upper, strict=True)]
    free = [var for var, name in enumerate(model.names) if name.startswith("piece")]
    found = set()
    for flags in itertools.product(*(spans[var] for var in free)):
        values = dict(zip(free, flags, strict=True))
        for row in model.rows:
            if row.low is not None and row.low == row.high:
                (last,) = [var for var, factor in row.terms.items() if factor == -1]
                values[last] = sum(f * values[v] for v, f in row.terms.items() if v != last)
                values[last] -= row.low
        if all(holds(row, values) for row in model.rows):
            found.add(tuple(values[var] for var in range(len(spans))))
    return found


@pytest.mark.parametrize("seed", range(150))
def test_no_point_is_lost_and_none_is_won(seed):
    rng = Random(seed)
    model, _ = made(rng, rng.choice((1, 5, 10)))
    assert points(strengthened(model)) == points(model)


@pytest.mark.parametrize("seed", range(60))
def test_the_relaxation_ends_at_whole_numbers(seed):
    rng = Random(1000 + seed)
    model, sums = made(rng, rng.choice((1, 10)))
    if not points(model):
        return
    # any direction of the two sums
    first, rest = rng.randint(-5, 5), rng.randint(-5, 5)
    model.cost = {sums[0]: first, **dict.fromkeys(sums[1:], rest)}
    best = min(sum(f * point[var] for var, f in model.cost.items()) for point in points(model))
    # sums of more than one variable have a step each, so the hull is that of the two totals
    value = relaxation(strengthened(model), method="simplex").value
    assert value == pytest.approx(best, abs=1e-6)


def test_a_rise_of_volume_is_counted_in_whole_pieces():
    model = Model()
    weeks = []
    for week in range(2):
        flags = [model.flag(f"piece {week} {each}") for each in range(9)]
        weeks.append(model.var(0, 90, f"minutes {week}"))
        model.equal({**dict.fromkeys(flags, 10), weeks[-1]: -1}, 0)
    model.at_most({weeks[1]: 100, weeks[0]: -130}, 0)
    # 3 pieces allow 3.9, so 3: the plain row leaves 39 minutes, the hull 30
    model.fix(weeks[0], 30)
    model.cost = {weeks[1]: -1}
    assert relaxation(model, method="simplex").value == pytest.approx(-39)
    assert relaxation(strengthened(model), method="simplex").value == pytest.approx(-30)


def test_a_cap_that_a_switch_brings_down_is_counted_in_whole_pieces():
    model = Model()
    flags = [model.flag(f"piece {each}") for each in range(9)]
    week, light = model.var(0, 90, "minutes"), model.flag("light")
    model.equal({**dict.fromkeys(flags, 10), week: -1}, 0)
    # 38 minutes at most in a light week, 90 in any other
    model.at_most({week: 1, light: 52}, 90)
    model.cost = {week: -1, light: -40}
    model.fix(light, 1)
    assert relaxation(model, method="simplex").value == pytest.approx(-78)
    assert relaxation(strengthened(model), method="simplex").value == pytest.approx(-70)


def test_rows_that_may_give_way_stay_as_they_are():
    model = Model()
    one, two = model.var(0, 9, "one"), model.var(0, 9, "two")
    switch = model.flag("switch")
    priced = Tag("volume", 0, None, price=3)
    model.at_most({one: 3, two: -2}, 4, priced)
    model.at_most({one: 3, two: -2}, 4, when=switch)
    assert strengthened(model).rows == model.rows
    assert all(isinstance(row, Row) for row in strengthened(model).rows)
