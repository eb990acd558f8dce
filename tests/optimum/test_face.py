"""Models searched only where they cost no more than their relaxation."""

from dataclasses import replace

import numpy as np
import pytest

from constraints.load import load_rules
from optimiser import solve
from optimiser.board.model import Model
from optimiser.engine.compact import compact
from optimiser.engine.face import search_face
from optimiser.engine.search import Effort, minimise
from optimiser.engine.value import value_of
from optimiser.objective import Prices, price_emphasis
from optimiser.solve import Settings, make_board, search_bounded, solve_season
from tests.benchmarks.calendars import season
from tests.rows import holds

EFFORT = Effort(5.0, 120.0, presolve="none")


def emphasis_model(*size):
    made = season(*size)
    board = make_board(made, load_rules({}, made))
    price_emphasis(board, Prices())
    return compact(board.model).model


@pytest.mark.parametrize("seed", range(4))
def test_what_is_found_costs_as_little_as_the_whole_model_allows(seed):
    model = emphasis_model(30, 3, 14, seed)

    found, relaxed = search_face(model, EFFORT)

    whole = minimise(model, Effort(20.0, 120.0))
    assert whole.status == found.status == "optimal"
    assert value_of(model, found.values) == found.objective == whole.objective == relaxed.bound
    assert all(holds(row, found.values) for row in model.rows)


def loose(most):
    """Return a model whose relaxation costs less than any solution: two of three at half."""
    model = Model()
    flags = [model.flag(name) for name in "abc"]
    for one, other in ((0, 1), (1, 2), (0, 2)):
        model.at_least({flags[one]: 1, flags[other]: 1}, 1)
    model.at_most(dict.fromkeys(flags, 1), most)
    model.cost = dict.fromkeys(flags, 2)
    return model


@pytest.mark.parametrize("most", [1, 2], ids=["no solution", "dearer"])
def test_where_no_solution_costs_as_little_nothing_is_claimed(most):
    assert search_face(loose(most), EFFORT) is None


def test_where_it_fails_the_whole_model_is_searched(monkeypatch):
    monkeypatch.setattr(solve, "LARGE", 0)

    found, relaxed = search_bounded(loose(2), Settings().effort(5.0), None, None)

    assert (found.status, found.objective) == ("optimal", 4)
    assert relaxed.bound is None or relaxed.bound <= 4


def test_a_season_planned_so_is_as_good_and_as_proven(monkeypatch):
    made = season(24, 3, 10, 3)
    rules = load_rules({}, made)
    usual = solve_season(made, rules).stages[0]
    monkeypatch.setattr(solve, "LARGE", 0)

    tight = solve_season(made, rules).stages[0]

    assert (usual.status, tight.status) == ("proven", "proven")
    assert tight.objective == usual.objective == tight.bound


def test_priced_rules_are_paid_for(monkeypatch):
    made = season(24, 3, 10, 3)
    rules = [
        rule.model_copy(update={"price": 3}) if rule.name in ("taper", "exposure") else rule
        for rule in load_rules({}, made)
    ]
    usual = solve_season(made, rules).stages[0]
    monkeypatch.setattr(solve, "LARGE", 0)

    assert solve_season(made, rules).stages[0].objective == usual.objective


def test_no_time_is_no_answer():
    model = emphasis_model(30, 3, 14, 1)

    assert search_face(model, replace(EFFORT, seconds=0.0)) is None
    assert np.isfinite(value_of(model, minimise(model, EFFORT).values))
