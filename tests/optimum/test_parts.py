"""Doses in three parts: what is claimed holds, and the same again in every run."""

from dataclasses import replace

import pytest
from dose_models import dose_model

from constraints.load import load_rules
from optimiser.engine import parts
from optimiser.engine.branch import Limits, branch
from optimiser.engine.parts import FAIR, search_by_parts
from optimiser.engine.value import value_of
from optimiser.solve import Settings, solve_season
from tests.benchmarks.calendars import season
from tests.rows import holds

LIMITS = Limits(gap=0.005, least=0, most=150, seconds=120)


@pytest.fixture(scope="module")
def doses():
    """Return a dose model, its windows and its least cost."""
    made = season(20, 4, 12, 1)
    model, windows = dose_model(made, load_rules({}, made), Settings(seconds=120))
    best = branch(model, Limits(gap=0.0, most=100_000, seconds=120))
    assert best.status == "optimal"
    return model, windows, best.objective


@pytest.mark.parametrize("gap", [0.05, 0.005, 0.0])
@pytest.mark.parametrize("workers", [1, 2])
def test_the_best_lies_between_bound_and_solution(doses, gap, workers):
    model, windows, best = doses

    found = search_by_parts(model, windows, replace(LIMITS, gap=gap, workers=workers))

    assert found.bound <= best <= found.objective == value_of(model, found.values)
    assert found.objective - found.bound <= gap * found.objective
    assert (found.status == "optimal") == (found.bound == found.objective)


def test_every_row_is_kept(doses):
    model, windows, _ = doses

    values = search_by_parts(model, windows, LIMITS).values

    assert all(holds(row, values) for row in model.rows if row.firm)


def test_it_repeats(doses):
    model, windows, _ = doses

    runs = [search_by_parts(model, windows, LIMITS) for _ in range(2)]

    assert runs[0].values == runs[1].values
    assert runs[0].bound == runs[1].bound
    assert runs[0].deterministic == runs[1].deterministic


def test_steps_left_once_the_gap_is_reached_are_used_for_more(doses):
    model, windows, best = doses
    wide = replace(LIMITS, gap=0.05)

    enough = search_by_parts(model, windows, wide)
    further = search_by_parts(model, windows, replace(wide, least=150))

    assert further.deterministic > enough.deterministic
    assert further.bound > enough.bound
    assert further.objective == best


def test_windows_go_on_from_a_fair_first_solution(doses):
    model, windows, _ = doses
    first = branch(model, replace(LIMITS, gap=FAIR, least=0))
    # so few steps that the bound is not searched at all
    spent = replace(LIMITS, most=1)

    found = search_by_parts(model, windows, spent)

    assert found.objective <= first.objective
    assert found.bound <= first.objective


def test_solutions_are_told_of_as_those_of_one_search(doses):
    model, windows, _ = doses
    told = []

    search_by_parts(model, windows, LIMITS, watch=lambda *each: told.append(each))

    costs, bounds = [cost for _, cost, _ in told], [bound for _, _, bound in told]
    assert costs == sorted(costs, reverse=True)
    assert bounds == sorted(bounds)
    assert len(set(costs)) == len(costs) >= 1


def test_a_model_without_a_solution_is_said_to_have_none(doses):
    model, windows, _ = doses
    narrow = replace(model, upper=[min(0, up) for up in model.upper], lower=[0] * len(model.lower))

    assert search_by_parts(narrow, windows, LIMITS).status == "infeasible"


def test_searched_to_the_end_what_a_short_search_leaves_open_is_proven():
    made = season(26, 4, 14, 2)
    rules = load_rules({}, made)

    short = solve_season(made, rules, Settings(dose_effort=0.1, seconds=120)).stages[1]
    whole = solve_season(made, rules, Settings().to_the_end()).stages[1]

    assert short.status != "proven"
    assert whole.status == "proven"
    assert short.bound <= whole.objective <= short.objective


def test_after_a_key_press_nothing_more_is_searched(doses, monkeypatch):
    model, windows, _ = doses
    searches = []

    def pressed(*arguments, **others):
        found = branch(*arguments, **others)
        searches.append(found)
        # the second search is cut short, within the gap as it happens
        return replace(found, cut_short=len(searches) > 1)

    monkeypatch.setattr(parts, "branch", pressed)
    found = search_by_parts(model, windows, replace(LIMITS, gap=0.05, least=150))

    assert found.cut_short
    assert len(searches) == 2
