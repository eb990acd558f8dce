"""A proof is confirmed by a second search, if wanted."""

from dataclasses import replace
from random import Random

import pytest
from tiny_seasons import tiny_season

import optimiser.engine.twice
import optimiser.solve
from constraints.blocks import Blocks
from constraints.progression import Progression
from optimiser.engine.search import minimise
from optimiser.solve import Settings, solve_season

RULES = [Blocks(shortest=2, longest=5), Progression()]


@pytest.fixture
def season():
    return tiny_season(Random(5), 9)


@pytest.fixture
def efforts(monkeypatch):
    """Keep the effort of each search; those of the second configuration can be led astray."""
    seen, off = [], {"by": 0}

    def watched(model, effort, **others):
        found = minimise(model, effort, **others)
        seen.append(effort)
        second = effort.seed != seen[0].seed
        return replace(found, objective=found.objective - off["by"]) if second else found

    for place in (optimiser.solve, optimiser.engine.twice):
        monkeypatch.setattr(place, "minimise", watched)
    return seen, off


def test_each_proof_is_searched_again_by_other_means(season, efforts):
    outcome = solve_season(season, RULES, Settings(certify=True))

    assert [stage.status for stage in outcome.stages] == ["proven", "proven"]
    # doses are proven by branch and bound first, then again by the other solver
    assert [effort.seed for effort in efforts[0]] == [0, 1000, 1000]


def test_unasked_nothing_is_searched_again(season, efforts):
    outcome = solve_season(season, RULES)

    assert [stage.status for stage in outcome.stages] == ["proven", "proven"]
    assert [effort.seed for effort in efforts[0]] == [0]


def test_what_a_second_search_betters_is_not_called_proven(season, efforts):
    efforts[1]["by"] = 1

    outcome = solve_season(season, RULES, Settings(certify=True))

    assert "proven" not in {stage.status for stage in outcome.stages}
