from itertools import product
from random import Random

import pytest

from optimiser.board.model import Model, Tag
from optimiser.explain.demand import Key, key_of, row_key
from optimiser.explain.reduce import reduced
from tests.rows import holds


def random_model(rng):
    """A few variables, definitions and demands; some definitions link variables of their own."""
    model = Model()
    for number in range(6):
        model.var(rng.randint(-1, 0), rng.randint(0, 2), f"x{number}")
    for _ in range(rng.randint(1, 5)):
        terms = {var: rng.choice((-2, -1, 1, 1, 2)) for var in rng.sample(range(6), 3)}
        when = rng.choice((None, None, rng.randrange(6)))
        kind, limit = rng.choice(("most", "least", "equal")), rng.randint(-1, 3)
        if kind == "equal":
            model.equal(terms, limit)
        elif kind == "most":
            model.at_most(terms, limit, when=_flag(model, when))
        else:
            model.at_least(terms, limit, when=_flag(model, when))
    for number in range(rng.randint(0, 3)):
        terms = {var: rng.choice((-1, 1)) for var in rng.sample(range(6), 2)}
        model.at_least(terms, rng.randint(0, 2), Tag("rule", number, None))
    return model


def _flag(model, when):
    if when is not None:
        model.lower[when], model.upper[when] = 0, 1
    return when


def solutions(model, kept):
    """Try everything."""
    rows = [row for row in model.rows if row.tag is None or row_key(row) in kept]
    spans = [range(low, high + 1) for low, high in zip(model.lower, model.upper, strict=True)]
    return any(all(holds(row, values) for row in rows) for values in product(*spans))


@pytest.mark.parametrize("seed", range(150))
def test_the_smaller_model_answers_the_same_about_every_part_of_the_demands(seed):
    model = random_model(Random(seed))
    keys = {key_of(tag) for tag in model.tags()}

    small = reduced(model, keys)

    for kept in (keys, set(), *({key} for key in keys)):
        assert solutions(small, kept) == solutions(model, kept), kept


def test_what_no_demand_touches_is_gone():
    model = Model()
    near, far = model.flag("near"), model.flag("far")
    load, other = model.var(0, 9, "load"), model.flag("other")
    model.equal({far: 9, load: -1}, 0)
    model.at_most({other: 1, far: -1}, 0)
    model.at_least({near: 1}, 1, Tag("rule", 0, None))

    small = reduced(model, {Key("rule", 0, None, "")})

    assert small.names == ["near"]
    assert len(small.rows) == 1


def test_helper_rows_stay_only_where_their_variables_are_used():
    model = Model()
    rung, used = model.flag("rung"), model.var(0, 5, "used")
    model.equal({rung: 5, used: -1}, 0)
    model.at_most({used: 1}, 3, Tag("budget", 0, None))
    model.at_least({rung: 1}, 1, Tag("pin", 0, None))
    budget, pin = Key("budget", 0, None, ""), Key("pin", 0, None, "")

    helpers = {0: frozenset({used})}
    assert "used" not in reduced(model, {pin}, helpers).names
    assert "used" in reduced(model, {budget, pin}, helpers).names
