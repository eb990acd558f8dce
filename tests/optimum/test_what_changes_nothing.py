"""Changes to a season of which the effect on the optimum is known beforehand."""

import datetime as dt
from random import Random

import pytest
from bands_alone import Prices, emphasis_value, price_emphasis
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from made_seasons import random_plan
from tiny_seasons import tiny_season

from constraints.blocks import Blocks
from constraints.congestion import Congestion
from constraints.foundation import Foundation
from constraints.load import load_rules
from constraints.progression import Progression
from constraints.reentry import Reentry
from constraints.taper import Taper
from optimiser.engine.cp_sat_search import Effort, minimise
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import make_board, solve_season
from optimiser.setup.build import build_season

PRICES = Prices(block=20)
EFFORT = Effort(deterministic=20)
SEEDS = st.integers(0, 10**6)
PROVE = Settings().to_the_end()
#: What a proof leaves open.
PROOF = 1e-4
YEAR = dt.timedelta(days=364)
quick = settings(max_examples=12, deadline=None, derandomize=True, database=None)


def emphasis_solved(season, rules, prices=PRICES):
    """Return the board and what stage 1 found, proven."""
    board = make_board(season, rules)
    price_emphasis(board, prices)
    found = minimise(board.model, EFFORT)
    assert found.status in ("optimal", "infeasible")
    return board, found


def least(season, rules, prices=PRICES):
    """Return stage 1's optimum; a sum no plan reaches where the rules clash."""
    found = emphasis_solved(season, rules, prices)[1].objective
    return 10**9 if found is None else found


def least_of_all(season, rules):
    """Return the least season cost over blocks, bands and doses, proven; None where rules clash."""
    outcome = solve_season(season, rules, PROVE)
    if outcome.verdict is None:
        return None
    assert outcome.verdict.status == "proven"
    return outcome.verdict.cost


def season_of(seed, weeks=10, ladders=2):
    return tiny_season(Random(seed), weeks, bands=4, closed=1, ladders=ladders)


def some_rules(seed):
    rng = Random(seed)
    return {
        "blocks": Blocks(shortest=2, longest=rng.randint(3, 5)),
        "progression": Progression(up=1, down=rng.randint(1, 2), volume_rise=20, allowance=20),
        "foundation": Foundation(from_rung=2, weeks=2, within=rng.randint(2, 4)),
        "reentry": Reentry(days_off=7, rung=1, volume=(40, 60)),
        "taper": Taper(keep_bands=rng.randint(1, 3)),
    }


LOOSER = {
    "longer blocks": ("blocks", {"longest": 6}),
    "shorter blocks": ("blocks", {"shortest": 1}),
    "steeper climbs": ("progression", {"up": 2}),
    "steeper falls": ("progression", {"down": 3}),
    "more volume": ("progression", {"volume_rise": 60}),
    "a shorter foundation": ("foundation", {"weeks": 1}),
    "a higher foundation": ("foundation", {"from_rung": 3}),
    "a higher return": ("reentry", {"rung": 2}),
    "more volume at the return": ("reentry", {"volume": (70,)}),
    "bands that fall sooner": ("taper", {"keep_bands": 0}),
    "a price instead of a must": ("blocks", {"price": 3}),
    "a price on steps": ("progression", {"price": 9}),
}


@pytest.mark.parametrize("change", LOOSER)
@settings(quick, max_examples=4)
@given(seed=SEEDS)
def test_a_looser_rule_never_costs_more(change, seed):
    season, rules = season_of(seed), some_rules(seed)
    name, update = LOOSER[change]

    looser = {**rules, name: rules[name].model_copy(update=update)}

    assert least(season, list(looser.values())) <= least(season, list(rules.values()))


@quick
@given(seed=SEEDS)
def test_a_dropped_rule_never_costs_more(seed):
    season, rules = season_of(seed), some_rules(seed)
    dropped = Random(seed).choice(list(rules))

    fewer = [rule for name, rule in rules.items() if name != dropped]

    assert least(season, fewer) <= least(season, list(rules.values()))


@quick
@given(seed=SEEDS)
def test_without_one_of_its_fixtures_a_season_that_has_a_plan_still_has_one(seed):
    season = season_of(seed)
    rules = [*some_rules(seed).values(), Congestion()]
    assume(season.fixtures)
    assume(emphasis_solved(season, rules)[1].status == "optimal")

    freed = without(season, Random(seed).choice(season.fixtures))

    assert emphasis_solved(freed, rules)[1].status == "optimal"


@settings(quick, max_examples=6)
@given(seed=SEEDS)
def test_a_dropped_rule_never_makes_the_whole_season_cost_more(seed):
    season, rules = season_of(seed, weeks=8), some_rules(seed)
    before = least_of_all(season, list(rules.values()))
    assume(before is not None)
    dropped = Random(seed).choice(list(rules))

    after = least_of_all(season, [rule for name, rule in rules.items() if name != dropped])

    assert after <= before * (1 + PROOF)


def without(season, dropped):
    weeks = tuple(
        week.model_copy(update={"fixtures": tuple(f for f in week.fixtures if f != dropped)})
        for week in season.weeks
    )
    return season.model_copy(update={"weeks": weeks})


@quick
@given(seed=SEEDS)
def test_the_same_season_a_year_later_has_the_same_plan(seed):
    season = season_of(seed)
    rules = load_rules({}, season)
    later = moved(season)

    board, found = emphasis_solved(season, rules)
    again, found_again = emphasis_solved(later, rules)

    assert (found.status, found.objective) == (found_again.status, found_again.objective)
    if found.values:
        assert board.read(found.values) == again.read(found_again.values)


def moved(season):
    """Return the season 52 weeks later."""
    weeks = tuple(
        week.model_copy(
            update={
                "monday": week.monday + YEAR,
                "fixtures": tuple(
                    f.model_copy(update={"date": f.date + YEAR}) for f in week.fixtures
                ),
            }
        )
        for week in season.weeks
    )
    return season.model_copy(update={"weeks": weeks})


def test_a_scenario_a_year_later_is_the_same_season(minimal):
    scenario = minimal.scenario
    later = scenario.model_copy(
        update={
            "first_monday": scenario.first_monday + YEAR,
            "fixtures": tuple(
                f.model_copy(update={"date": f.date + YEAR}) for f in scenario.fixtures
            ),
        }
    )

    season = build_season(later, later.fixtures)

    assert moved(minimal.season) == season
    assert least(season, load_rules({})) == least(minimal.season, load_rules({}))


@settings(quick, max_examples=6)
@given(seed=SEEDS)
def test_the_order_of_the_qualities_changes_nothing(seed):
    season, rules = season_of(seed, ladders=3), list(some_rules(seed).values())
    order = Random(seed).sample(range(3), 3)
    other = season.model_copy(
        update={
            "qualities": tuple(season.qualities[at] for at in order),
            "emphasis": tuple(season.emphasis[at] for at in order),
        }
    )
    found = emphasis_solved(season, rules)[1]
    assume(found.values)

    assert least(other, rules) == found.objective
    assert least_of_all(other, rules) == pytest.approx(least_of_all(season, rules), rel=PROOF)


@quick
@given(seed=SEEDS, factor=st.integers(2, 5))
def test_larger_weights_for_all_keep_the_order_of_any_two_plans(seed, factor):
    season = season_of(seed)
    rng = Random(seed)
    plans = [random_plan(rng, season) for _ in range(4)]
    large = scaled(season, factor)
    prices = Prices(block=PRICES.block * factor)

    values = [emphasis_value(season, PRICES, plan) for plan in plans]

    assert [emphasis_value(large, prices, plan) for plan in plans] == [
        factor * value for value in values
    ]


@quick
@given(seed=SEEDS, factor=st.integers(2, 5))
def test_larger_weights_for_all_make_the_optimum_as_much_larger(seed, factor):
    season, rules = season_of(seed), list(some_rules(seed).values())
    found = emphasis_solved(season, rules)[1]
    assume(found.values)

    more = least(scaled(season, factor), rules, Prices(block=PRICES.block * factor))

    assert more == factor * found.objective


def scaled(season, factor):
    qualities = tuple(
        quality.model_copy(update={"weight": quality.weight * factor})
        for quality in season.qualities
    )
    return season.model_copy(update={"qualities": qualities})
