"""A proof is confirmed by a second search, if wanted."""

from dataclasses import replace
from random import Random

import pytest
from tiny_seasons import tiny_season

import optimiser.certify as certify
from constraints.blocks import Blocks
from constraints.progression import Progression
from optimiser.engine.branch import branch
from optimiser.engine.search import minimise
from optimiser.solve import Settings, solve_season

RULES = [Blocks(shortest=2, longest=5), Progression()]


@pytest.fixture
def season():
    return tiny_season(Random(5), 9)


@pytest.fixture
def asked(monkeypatch):
    """Keep who is asked again; each can be led astray, give up or be broken off."""
    seen, turns = [], {}

    def again(name, search):
        def watched(*given, **others):
            seen.append(name)
            return turns.get(name, lambda found: found)(search(*given, **others))

        monkeypatch.setattr(certify, search.__name__, watched)

    again("HiGHS", branch)
    again("CP-SAT", minimise)
    return seen, turns


def better(found):
    return replace(found, objective=found.objective - 1)


def unknown(found):
    return replace(found, status="unknown", values=[], objective=None)


def pressed(found):
    return replace(unknown(found), cut_short=True)


CERTIFY = Settings(certify=True)


def said(outcome):
    return [(stage.status, stage.confirmed) for stage in outcome.stages]


def test_each_proof_is_searched_again_by_the_other_solver(season, asked):
    outcome = solve_season(season, RULES, CERTIFY)

    assert said(outcome) == [("proven", True), ("proven", True)]
    assert asked[0] == ["HiGHS", "CP-SAT"]


def test_unasked_nothing_is_searched_again(season, asked):
    outcome = solve_season(season, RULES)

    assert said(outcome) == [("proven", None), ("proven", None)]
    assert asked[0] == []


def test_what_a_second_search_betters_is_not_called_proven(season, asked):
    asked[1].update({"HiGHS": better, "CP-SAT": better})

    outcome = solve_season(season, RULES, CERTIFY)

    assert said(outcome) == [("within_gap", False), ("within_gap", False)]
    assert asked[0] == ["HiGHS", "CP-SAT"]


def test_where_one_solver_comes_to_no_end_the_first_is_asked_from_another_seed(season, asked):
    asked[1]["HiGHS"] = unknown

    outcome = solve_season(season, RULES, CERTIFY)

    assert said(outcome) == [("proven", True), ("proven", True)]
    assert asked[0] == ["HiGHS", "CP-SAT", "CP-SAT"]


def test_ctrl_c_in_a_second_search_keeps_the_plan_and_says_less_of_it(season, asked):
    asked[1]["HiGHS"] = pressed

    outcome = solve_season(season, RULES, CERTIFY)

    assert outcome.stopped
    assert outcome.plan is not None
    assert said(outcome) == [("within_gap", False)]
