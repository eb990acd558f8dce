"""Every rule of the catalogue, on random seasons and plans: rows and audit say the same."""

from random import Random

import pytest
from made_seasons import (
    assert_agrees,
    audit_price,
    can_hold,
    make_season,
    match_on,
    random_plan,
    random_season,
)
from rule_samples import SAMPLES

from constraints import CATALOGUE
from constraints.blocks import Blocks
from constraints.foundation import Foundation
from constraints.progression import Progression
from constraints.revisit import Revisit
from constraints.taper import Taper
from optimiser.domain.fixture import Priority
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.engine.cp_sat_search import Effort, minimise
from optimiser.joint_model.solve import make_board
from optimiser.rule import Rule

PLANS = 40
# revisit speaks of long seasons, whose boards are large; the others meet one now and then
LONG = {"revisit": range(0, PLANS, 4)}
ONCE = range(0, 1)


def _cases(name: str) -> list[tuple[Rule, Plan, Season]]:
    """Return the samples of a rule in turn, each with a season and a plan of its own."""
    cases = []
    for number in range(PLANS):
        rng = Random(f"{name} {number}")
        season = random_season(rng, long=number in LONG.get(name, ONCE))
        rule = SAMPLES[name][number % len(SAMPLES[name])]
        cases.append((rule, random_plan(rng, season), season))
    return cases


def test_every_rule_has_samples_that_differ():
    missing = set(CATALOGUE) - set(SAMPLES)
    assert not missing, "add samples of a new rule to rule_samples.py"
    for name, rules in SAMPLES.items():
        assert {type(rule).name for rule in rules} == {name}
        assert len({rule.model_dump_json() for rule in rules}) == len(rules) >= 3


@pytest.mark.parametrize("name", CATALOGUE)
def test_rows_and_audit_agree_on_random_plans(name):
    for rule, plan, season in _cases(name):
        rule.check(season)
        assert_agrees(rule, plan, season)


@pytest.mark.parametrize("name", CATALOGUE)
def test_random_plans_both_break_and_keep_the_rule(name):
    prices = [audit_price(*case) for case in _cases(name)]

    assert sum(price > 0 for price in prices) >= 5
    assert sum(price == 0 for price in prices) >= 5


@pytest.mark.parametrize("name", CATALOGUE)
def test_what_the_solver_finds_under_a_hard_rule_passes_its_audit(name):
    passed = 0
    for number, rule in enumerate(SAMPLES[name]):
        rng = Random(f"solved {name} {number}")
        season = random_season(rng)
        plan = _solved([rule], season, rng)
        if plan is not None:
            assert rule.audit(plan, season) == []
            passed += 1

    assert passed


@pytest.mark.parametrize("name", CATALOGUE)
@pytest.mark.parametrize("weeks", [1, 2])
def test_the_shortest_seasons_agree(name, weeks):
    rng = Random(f"short {name} {weeks}")
    season = make_season(weeks, fixtures=[match_on(0)])
    for rule in SAMPLES[name]:
        if name != "pin":
            assert_agrees(rule, random_plan(rng, season), season)


@pytest.mark.parametrize("name", CATALOGUE)
def test_a_season_with_one_open_week_agrees(name):
    rng = Random(f"shut {name}")
    season = make_season(6, fixtures=[match_on(0), match_on(4)], closed=(0, 1, 2, 4, 5))
    for rule in SAMPLES[name]:
        assert_agrees(rule, random_plan(rng, season), season)


@pytest.mark.parametrize("name", CATALOGUE)
def test_a_season_without_an_open_week_agrees(name):
    fixtures = [match_on(0, priority=Priority.HIGH), match_on(6, priority=Priority.HIGH)]
    season = make_season(7, fixtures=fixtures, closed=range(7))
    for rule in SAMPLES[name]:
        assert_agrees(rule, random_plan(Random(0), season), season)


@pytest.mark.parametrize("seed", range(3))
def test_all_rules_together_hold_what_their_audits_pass(seed):
    season = make_season(14, fixtures=[match_on(week) for week in range(4, 14)])
    rules = [kind() for kind in CATALOGUE.values()]

    held = _held_around_a_plan(rules, season, Random(f"together {seed}"))

    assert set(held) == {True, False}


@pytest.mark.parametrize("seed", range(4))
def test_rules_that_lean_on_each_other_hold_what_their_audits_pass(seed):
    """Small steps let foundation post less, and revisit makes layers that steps must keep."""
    peaks = [match_on(week, priority=Priority.HIGH) for week in (0, 15)]
    season = make_season(16, fixtures=peaks, closed=(6, 7) if seed % 2 else ())
    rules: list[Rule] = [
        Blocks(shortest=2, longest=4),
        Progression(up=1, down=1 + seed % 2, allowance=1000),
        Taper(high=(), medium=(), keep_bands=3),
        Foundation(from_rung=2, weeks=2, within=2 + seed // 2),
        Revisit(rung=1, weeks=2, long_season=1, clear=2),
    ]

    held = _held_around_a_plan(rules, season, Random(f"leaning {seed}"))

    assert set(held) == {True, False}


def _held_around_a_plan(rules: list[Rule], season: Season, rng: Random) -> list[bool]:
    """Check a plan of the hard model and plans one change away; tell which may stand."""
    plan = _solved(rules, season, rng)
    assert plan is not None
    held = []
    for other in [plan, *(_with_one_change(rng, plan, season) for _ in range(20))]:
        clean = not any(rule.audit(other, season) for rule in rules)
        assert can_hold(rules, other, season) == clean
        held.append(clean)
    assert held[0]
    return held


def _solved(rules: list[Rule], season: Season, rng: Random) -> Plan | None:
    """Return a plan of the hard model that climbs as costs lead it; None if there is none."""
    board = make_board(season, rules)
    board.model.cost = {
        var: rng.randint(-9, 9) - 3 * rung for (_, _, rung, _, _), var in board.steps.items()
    }
    for week in board.open_weeks():
        board.model.cost |= dict.fromkeys(board.minutes(week), rng.randint(-2, 1))
    found = minimise(board.model, Effort(deterministic=1.0))
    return board.read(found.values) if found.values else None


def _with_one_change(rng: Random, plan: Plan, season: Season) -> Plan:
    """Return the plan with the doses of one week, or the rungs of one quality, of another."""
    other = random_plan(rng, season)
    if rng.random() < 0.5:
        week = rng.randrange(len(season.weeks))

        def swap(old, new):
            return (*old[:week], new[week], *old[week + 1 :])

        return plan.model_copy(
            update={
                "doses": tuple(map(swap, plan.doses, other.doses)),
                "field": swap(plan.field, other.field),
                "gym": swap(plan.gym, other.gym),
            }
        )
    index = rng.randrange(len(plan.rungs))
    step = rng.choice((-1, 1))
    top = len(season.qualities[index].bands) - 1
    block = rng.choice(plan.blocks())
    row = tuple(
        min(top, max(0, (rung or 0) + step)) if week in block else rung
        for week, rung in enumerate(plan.rungs[index])
    )
    rungs = tuple(row if at == index else old for at, old in enumerate(plan.rungs))
    return plan.model_copy(update={"rungs": rungs})
