"""A season searched as one: its cost, its bound, and that nothing legal lies below."""

from dataclasses import replace
from random import Random

import pytest
from every_choice import cheapest
from local_moves import cheapest_near
from tiny_seasons import tiny_season

from constraints.blocks import Blocks
from constraints.deload import Deload
from constraints.exposure import Exposure
from constraints.progression import Progression
from constraints.session_caps import SessionCaps
from optimiser.board.model import Model
from optimiser.domain.rates import Rates
from optimiser.engine.branch_and_bound import SearchLimits, branch_and_bound
from optimiser.engine.cp_sat_search import Found
from optimiser.engine.objective import value_of
from optimiser.joint_model.cost import season_cost
from optimiser.joint_model.cost_rows import price_season
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import make_board, solve_season
from optimiser.joint_model.verdict import judged
from optimiser.review.audit import audit_plan
from optimiser.setup.amounts import wanted

RATES = Rates()
PROVE = Settings().to_the_end()


def few_rules(rng, weeks):
    price = rng.choice((None, 3, 20))
    return [
        Blocks(shortest=1, longest=rng.randint(2, min(8, max(2, weeks)))),
        Deload(sessions=0, allowance=rng.choice((-10, 0, 10)), price=price),
        Progression(up=1, down=2, volume_rise=200, allowance=rng.choice((20, 500))),
        Exposure(usual_gap=2, gap_weeks={}, price=rng.choice((None, 5))),
    ]


@pytest.mark.parametrize("seed", range(14))
def test_the_proven_plan_is_the_best_of_all_blocks_bands_and_doses(seed):
    rng = Random(seed)
    season = tiny_season(rng, 3, bands=rng.choice((2, 3)), closed=0, ladders=1)
    rules = few_rules(rng, 3)

    whole = solve_season(season, rules, PROVE)
    best = cheapest(season, rules, RATES)

    if best is None:
        assert whole.status == "clash"
    else:
        assert whole.verdict.status == "proven"
        assert abs(whole.verdict.cost - best) <= 1e-4 * best


def legal_plan(season, rules, rng):
    """Some plan that keeps the rules, chosen by costs that mean nothing."""
    board = make_board(season, rules)
    for var in (*board.arcs.values(), *board.steps.values()):
        board.model.cost[var] = rng.randint(0, 50)
    for week in board.open_weeks():
        board.model.cost |= {var: rng.randint(-20, 20) for var in board.week_choices(week)}
    return board.read(branch_and_bound(board.model, SearchLimits(gap=0.0, workers=1)).values)


@pytest.mark.parametrize("seed", range(12))
def test_the_model_charges_a_plan_what_the_plan_alone_says(seed):
    rng = Random(100 + seed)
    season = tiny_season(rng, rng.randint(4, 9))
    rules = [*few_rules(rng, 9)[:3], SessionCaps()]
    plan = legal_plan(season, rules, rng)
    board = make_board(season, rules)
    price_season(board, RATES)
    held = held_at(board, plan)
    found = branch_and_bound(held, SearchLimits(gap=0.0, workers=1))

    assert value_of(held, found.values) == season_cost(season, rules, plan, RATES).total


def held_at(board, plan) -> Model:
    model = replace(board.model, lower=list(board.model.lower), upper=list(board.model.upper))
    for var, value in board.hint(plan).items():
        model.fix(var, value)
    return model


@pytest.mark.parametrize("seed", range(8))
def test_a_local_search_finds_nothing_below_the_bound(seed):
    rng = Random(200 + seed)
    season = tiny_season(rng, rng.randint(8, 20), closed=1)
    rules = [*few_rules(rng, 8), SessionCaps()]
    found = solve_season(season, rules, Settings())

    least, legal = cheapest_near(season, rules, found.plan, rng, tries=300)

    assert legal > 3
    assert least >= found.verdict.bound


def test_a_long_season_goes_through_neighbourhoods_and_repeats_exactly():
    rng = Random(5)
    season = tiny_season(rng, 24, ladders=2)
    rules = [Blocks(shortest=3, longest=6), Deload(sessions=0), SessionCaps()]

    shown = []

    def better(plan, verdict):
        shown.append((plan, verdict))

    one = solve_season(season, rules, Settings(workers=1), better=better)
    other = solve_season(season, rules, Settings(workers=1))

    assert shown
    assert all(audit_plan(season, plan, rules) == [] for plan, _ in shown)
    costs = [verdict.cost for _, verdict in shown] + [one.verdict.cost]
    assert costs == sorted(costs, reverse=True)
    assert one.plan == other.plan
    assert (one.verdict.cost, one.verdict.bound) == (other.verdict.cost, other.verdict.bound)
    assert one.verdict.gap <= 0.01


@pytest.mark.parametrize("seed", range(4))
def test_no_session_is_held_that_neither_rules_nor_costs_ask_for(seed):
    rng = Random(300 + seed)
    season = tiny_season(rng, 9, closed=1)
    rules = [*few_rules(rng, 9), SessionCaps()]
    plan = solve_season(season, rules, Settings()).plan
    cost = season_cost(season, rules, plan, RATES).total

    for place in ("field", "gym"):
        for week, count in enumerate(getattr(plan, place)):
            row = list(getattr(plan, place))
            row[week] = count - 1
            fewer = plan.model_copy(update={place: tuple(row)})
            dearer = season_cost(season, rules, fewer, RATES).total > cost
            assert not count or dearer or audit_plan(season, fewer, rules)


def test_the_judge_calls_nothing_proven_that_breaks_a_rule_or_costs_other_than_told():
    season = tiny_season(Random(1), 4, closed=0)
    plan = legal_plan(season, [Blocks(shortest=4, longest=4)], Random(1))
    cost = season_cost(season, [], plan, RATES).total
    closed = Found("optimal", [1], cost, float(cost), 0.0, 0.0)

    assert judged(season, [], plan, closed, RATES, 0.01).status == "proven"
    broken = judged(season, [Blocks(shortest=1, longest=1)], plan, closed, RATES, 0.01)
    assert broken.status == "stopped"
    other = replace(closed, objective=cost + 1)
    assert judged(season, [], plan, other, RATES, 0.01).status == "stopped"
    above = replace(closed, bound=cost + 1.0)
    assert judged(season, [], plan, above, RATES, 0.01).status == "stopped"


def test_amounts_shift_from_strength_to_speed_towards_the_peak(minimal):
    aims = dict(zip(minimal.season.keys, wanted(minimal.season), strict=True))
    strength = [a + b for a, b in zip(aims["max_strength"], aims["general_strength"], strict=True)]
    fast = [a + b for a, b in zip(aims["sprint"], aims["plyometrics"], strict=True)]

    assert strength[0] > fast[0]
    assert strength[-3] < fast[-3]
