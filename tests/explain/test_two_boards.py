"""The board to argue about and the board to search on say the same."""

from random import Random

import pytest
from made_seasons import random_season

from constraints import CATALOGUE
from constraints.pin import Pin, Pinned
from optimiser.engine.cp_sat_model import emit
from optimiser.engine.cp_sat_search import Effort, solver_for
from optimiser.explain.clash import Argument, find_clash
from optimiser.explain.oracle import Clock
from optimiser.explain.some_way import broken_by, cost_of_giving_way, some_way
from optimiser.joint_model.solve import make_board
from optimiser.review.audit import audit_plan

VERDICT = {"OPTIMAL": "possible", "INFEASIBLE": "clash"}


def season_and_rules(seed):
    """A crowded season, all rules, and some choices that may or may not be possible."""
    rng = Random(seed)
    season = random_season(rng)
    weeks = [week.number for week in season.weeks if not week.closed]
    choices = tuple(
        Pinned(week=rng.choice(weeks), quality="sprint", band=rng.randint(1, 2))
        for _ in range(rng.randint(0, 2))
    )
    rules = [kind() for name, kind in CATALOGUE.items() if name != "pin"]
    return season, [*rules, Pin(choices=choices)]


def searched(season, rules):
    solver = solver_for(Effort(deterministic=30.0))
    return VERDICT[solver.status_name(solver.solve(emit(make_board(season, rules).model).cp))]


def test_both_kinds_of_season_are_tried():
    verdicts = {searched(*season_and_rules(seed)) for seed in range(24)}

    assert verdicts == {"possible", "clash"}


@pytest.mark.parametrize("seed", range(24))
def test_they_agree_whether_there_is_a_plan(seed):
    season, rules = season_and_rules(seed)

    finding = find_clash(season, rules, seconds=60)

    assert finding.verdict == searched(season, rules)
    if finding.plan is not None:
        assert audit_plan(season, finding.plan, rules) == []
    assert all(clash.minimal for clash in finding.clashes)


def test_some_way_to_give_is_a_plan_and_just_what_it_breaks():
    tried = 0
    for seed in range(36):
        season, rules = season_and_rules(seed)
        argument = Argument(season, rules, Clock(60))
        if argument.oracle.core(argument.oracle.keys).verdict != "clash":
            continue
        way, plan = some_way(argument, set())
        assert way.sizes == broken_by(argument, plan)
        assert way.sizes
        assert way.cost == cost_of_giving_way(argument.demands, way.sizes)
        assert not way.proven
        tried += 1

    assert tried > 3
