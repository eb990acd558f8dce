import pytest
from clashing import SEASONS

from optimiser.explain.clash import Argument
from optimiser.explain.demand import key_of
from optimiser.explain.mend import mended
from optimiser.explain.oracle import Clock
from optimiser.explain.repair import Repairs
from optimiser.explain.soft_board import soft_board
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import solve_season
from optimiser.review.audit import audit_plan

QUICK = [name for name in SEASONS if name not in ("no_deload", "load_jump", "no_foundation")]
#: One limit speaks of many weeks: the way in which it alone gives is not proven cheapest of all.
ALONE = "light_season"
FIRST = {
    "restart_at_the_top": [("pin", "band", 1)],
    "too_steep": [("pin", "band", 1)],
    "two_peaks": [("taper", "apart", 1)],
    "no_gym": [("session_caps", "gym", 1)] * 3,
    "work_in_rest": [("pin", "", 1)],
    "budget": [("exposure", "", 1)],
}


@pytest.fixture(scope="module")
def repaired():
    """The repairs of a season, looked for once."""
    known = {}

    def find(name, argued):
        if name not in known:
            argument, finding = argued(name)
            argument.clock = argument.oracle.clock = Clock(120)
            known[name] = list(Repairs(argument, finding.keys).find(3))
        return known[name]

    return find


@pytest.mark.parametrize("name", QUICK)
def test_every_repair_has_a_plan_that_the_mended_rules_find_nothing_wrong_with(
    argued, repaired, name
):
    argument, _ = argued(name)

    found = repaired(name, argued)

    assert found
    for repair in found:
        rules = mended(argument.rules, [(give.demand, give.by) for give in repair.gives])
        assert audit_plan(argument.season, repair.plan, rules) == []
        assert repair.cheapest or name == ALONE


@pytest.mark.parametrize(("name", "gives"), FIRST.items())
def test_the_cheapest_repair_is_the_obvious_one(argued, repaired, name, gives):
    first = repaired(name, argued)[0]

    assert [(give.demand.rule, give.demand.key.part, give.by) for give in first.gives] == gives


@pytest.mark.parametrize("name", ["restart_at_the_top", "too_steep", "no_gym", "step_down"])
def test_a_repair_gives_no_more_than_it_must(argued, repaired, name):
    argument, _ = argued(name)

    for repair in repaired(name, argued):
        sizes = {give.demand.key: give.by for give in repair.gives}
        for key, by in sizes.items():
            less = {**sizes, key: by - 1}
            kept = [each for each in argument.oracle.keys if each not in less]
            assert argument.oracle.core(kept, loosened=less).verdict == "clash", key


def test_what_keeps_people_safe_is_given_up_last_and_marked(argued, repaired):
    first, second, *_ = repaired("restart_at_the_top", argued)

    assert not first.safety
    assert second.safety
    assert second.cost > first.cost


def test_repairs_are_ways_of_their_own(argued, repaired):
    for name in ("no_gym", "crowded", "step_down"):
        found = repaired(name, argued)
        ways = {tuple((give.demand.key, give.by) for give in repair.gives) for repair in found}
        assert len(ways) == len(found) == 3


def test_there_is_no_second_way_where_only_one_rule_says_anything(argued, repaired):
    assert len(repaired("two_peaks", argued)) == 1


def test_the_mended_season_is_planned_by_the_usual_search(argued, repaired):
    argument, _ = argued("no_gym")
    repair = repaired("no_gym", argued)[0]
    rules = mended(argument.rules, [(give.demand, give.by) for give in repair.gives])

    quick = Settings(quick=True)
    outcome = solve_season(argument.season, rules, quick)

    assert outcome.status == "planned"
    assert sum(outcome.plan.gym[6:9]) == 3


def test_a_demand_that_gives_way_by_enough_has_no_rows_left_to_break(argued, repaired):
    argument, _ = argued("restart_at_the_top")
    repair = repaired("restart_at_the_top", argued)[1]
    rules = mended(argument.rules, [(give.demand, give.by) for give in repair.gives])

    model = soft_board(argument.season, rules)[0].model

    given = {give.demand.key for give in repair.gives if give.demand.rule == "reentry"}
    assert given
    assert not given & {key_of(tag) for tag in model.tags()}


def test_a_limit_on_many_weeks_gives_way_alone_and_by_no_more_than_it_must(argued, repaired):
    argument, _ = argued(ALONE)

    first = repaired(ALONE, argued)[0]

    [give] = first.gives
    assert give.demand.rule == "phase_load"
    assert not first.cheapest
    less = mended(argument.rules, [(give.demand, give.by - 1)])
    assert solve_season(argument.season, less, Settings()).status == "clash"


def test_without_time_no_repair_is_made_up(argued):
    argument, finding = argued("two_peaks")
    late = Argument(argument.season, argument.rules, Clock(0))

    assert list(Repairs(late, finding.keys).find(3)) == []
