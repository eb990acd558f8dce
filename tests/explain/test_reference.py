"""The same questions put to CPMpy, which has its own ways to smallest clashes and corrections.

Guns (2019), Increasing modeling language convenience with a universal n-dimensional array, CPpy as
python-embedded example (ModRef 2019); from memory.
"""

from itertools import islice

import pytest

from optimiser.explain.cheapest import GivingWay
from optimiser.explain.demand import row_key
from optimiser.explain.oracle import Clock, core_solver, light_solver
from optimiser.explain.reduce import reduced
from optimiser.explain.turns import Turns

cpmpy = pytest.importorskip("cpmpy")
explain = pytest.importorskip("cpmpy.tools.explain")


def exported(model, keys):
    """The model in CPMpy: definitions, and one constraint a demand, in the order of ``keys``."""
    values = [
        cpmpy.intvar(low, high, name=f"v{number}")
        for number, (low, high) in enumerate(zip(model.lower, model.upper, strict=True))
    ]
    soft, hard = {key: [] for key in keys}, []
    for row in model.rows:
        (hard if row.tag is None else soft[row_key(row)]).extend(_row(row, values))
    return [cpmpy.all(soft[key]) for key in keys], hard


def _row(row, values):
    amount = cpmpy.sum([factor * values[var] for var, factor in row.terms.items()])
    made = [amount <= row.high] if row.high is not None else []
    made += [amount >= row.low] if row.low is not None else []
    return [each if row.when is None else (values[row.when] == 1).implies(each) for each in made]


SMALL = ("restart_at_the_top", "too_steep", "crowded", "no_gym", "step_down")


@pytest.mark.parametrize("name", SMALL)
def test_the_reference_finds_nothing_smaller_inside_a_clash(argued, name):
    argument, finding = argued(name)
    keys = finding.clashes[0].keys

    soft, hard = exported(reduced(argument.model, keys, argument.helpers), keys)

    assert len(explain.mus(soft, hard)) == len(keys)


@pytest.mark.parametrize("name", SMALL)
def test_what_the_reference_calls_smallest_is_smallest_for_us_too(argued, name):
    argument, finding = argued(name)
    near = finding.clashes[0].keys
    quality = {key.quality for key in near} | {None}
    rules = {key.rule for key in near}
    keys = [key for key in argument.demands if key.rule in rules and key.quality in quality]

    soft, hard = exported(reduced(argument.model, keys, argument.helpers), keys)

    found = explain.mus(soft, hard)
    places = {id(each): key for each, key in zip(soft, keys, strict=True)}
    core = [places[id(each)] for each in found]
    small = reduced(argument.model, core, argument.helpers)
    assert set(argument.smallest(core).keys) == set(core)
    assert {row_key(row) for row in small.rows if row.tag} <= set(core)


@pytest.mark.parametrize("name", SMALL)
def test_the_fewest_demands_to_let_go_are_as_many_as_the_reference_says(argued, name, monkeypatch):
    argument, finding = argued(name)
    quality = {key.quality for key in finding.keys} | {None}
    rules = {key.rule for key in finding.keys}
    keys = [key for key in argument.demands if key.rule in rules and key.quality in quality]
    small = reduced(argument.model, keys, argument.helpers)
    for free in ("unit_cost", "kind_cost"):
        monkeypatch.setattr(f"optimiser.explain.cheapest.{free}", lambda _: 0)
    monkeypatch.setattr("optimiser.explain.cheapest.place_cost", lambda _: 1)

    ours = GivingWay(small, {key: argument.demands[key] for key in keys}, Clock(60)).cheapest()

    soft, hard = exported(small, keys)
    assert ours.proven
    assert ours.cost == len(explain.mcs_opt(soft, hard))


def test_the_way_of_searching_that_gets_there_goes_first_next_time(argued):
    argument, finding = argued(SMALL[0])
    keys = [key for key in argument.demands if key in set(finding.keys)]
    small = reduced(argument.model, keys, argument.helpers)
    demands = {key: argument.demands[key] for key in keys}

    def starved(seconds, seed=0, effort=None):
        return core_solver(seconds, seed, 0.0)

    turns = Turns([starved, light_solver])
    found = GivingWay(small, demands, Clock(60), turns).cheapest()
    assert found.proven
    assert turns.order == [light_solver, starved]
    (first, longest), (_, usual_turn) = islice(turns.each(), 2)
    assert first is light_solver
    assert longest > usual_turn
    usual = GivingWay(small, demands, Clock(60)).cheapest()
    assert usual.proven
    assert usual.cost == found.cost
