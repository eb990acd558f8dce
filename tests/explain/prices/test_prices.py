import pytest
from made_seasons import make_season, match_on

from constraints.blocks import Blocks
from constraints.deload import Deload
from constraints.pin import Pin
from constraints.rest import Rest
from constraints.revisit import Revisit
from constraints.session_caps import PhaseCaps, SessionCaps
from optimiser.domain.fixture import Priority
from optimiser.explain.prices.looser import looser, without_rule
from optimiser.explain.prices.price import price_rules
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import solve_season
from optimiser.review.score import match_score

QUICK = Settings(quick=True, seconds=60.0)
#: No gym session in season holds this season back; the other rules do not.
TIGHT = SessionCaps(in_season=PhaseCaps(field=2, gym=0))
RULES = [Blocks(), TIGHT, Revisit(), Rest(), Pin()]


@pytest.fixture(scope="module")
def season():
    made = make_season(8, fixtures=[match_on(5, priority=Priority.HIGH), match_on(7)])
    weeks = tuple(week.model_copy(update={"target": 95.0}) for week in made.weeks)
    return made.model_copy(update={"weeks": weeks})


@pytest.fixture(scope="module")
def plan(season):
    return solve_season(season, RULES, QUICK).plan


@pytest.fixture(scope="module")
def prices(season, plan):
    return price_rules(season, RULES, plan, QUICK, processes=1)


def test_every_rule_has_a_price_and_the_dearest_comes_first(prices):
    points = [price.dropped.points for price in prices]

    assert {price.rule for price in prices} == {rule.name for rule in RULES}
    assert points == sorted(points, reverse=True)
    assert prices[0].rule == "session_caps"
    assert points[0] > 1


def test_a_gain_is_that_of_a_plan_that_can_be_found_again(season, plan, prices):
    gain = prices[0].dropped.points
    _, rest = without_rule(RULES, "session_caps")

    better = solve_season(season, rest, QUICK, start=plan).plan

    reached = match_score(season, better).score - match_score(season, plan).score
    assert reached == pytest.approx(gain, abs=1.0)


def test_a_step_gains_no_more_than_dropping_the_rule(prices):
    for price in prices:
        assert price.dropped.points >= 0
        if price.looser is not None:
            assert 0 <= price.looser.points <= price.dropped.points


def test_the_fixture_that_gains_most_is_named(season, prices):
    week, name = prices[0].dropped.fixture

    assert (week, name) in {(w.index, f.name) for w in season.weeks for f in w.fixtures}
    assert prices[0].dropped.fixture_points > 0


def test_rules_with_nothing_to_say_cost_nothing_and_are_not_searched_for(season, plan):
    asked = []

    found = price_rules(
        season, RULES, plan, QUICK, processes=1, told=lambda *done: asked.append(done)
    )

    silent = {price.rule: price for price in found if price.rule in ("rest", "pin", "revisit")}
    assert all(price.dropped.points == 0 for price in silent.values())
    assert silent["rest"].looser is None
    assert asked[-1][0] <= 4


def test_two_processes_find_what_one_finds(season, plan, prices):
    found = price_rules(season, RULES, plan, QUICK, processes=2)

    points = {price.rule: price.dropped.points for price in prices}
    for price in found:
        assert price.dropped.points == pytest.approx(points[price.rule], abs=0.5)


def test_a_looser_rule_stands_where_the_rule_stood():
    rules = [Blocks(), Deload(), Pin()]

    change, after = looser(rules, "deload")

    assert (change.rule, change.way) == ("deload", "looser")
    assert [rule.name for rule in after] == ["blocks", "deload", "pin"]
    assert after[1] != rules[1]
    assert looser(rules, "pin") is None
