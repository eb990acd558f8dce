import pytest

from optimiser.audit import audit_plan
from optimiser.domain.changes import Add
from optimiser.objective import Prices, emphasis_value
from optimiser.replan.cells import changed_cells
from optimiser.replan.near import solve_near
from optimiser.solve import Settings, solve_season
from optimiser.whatif.apply import apply_edits

QUICK = Settings(dose_effort=0.6)


def test_the_best_plan_of_an_unchanged_season_is_the_plan_itself(short, short_rules, short_plan):
    near = solve_near(short.season, short_rules, short_plan, QUICK)

    assert changed_cells(short_plan, near.plan) == []
    assert near.stages[0].status == "proven"


@pytest.fixture(scope="module")
def cup(short):
    edit = Add(date="2026-10-07", opponent="Loxley", priority="medium")
    return apply_edits(short.scenario, short.season, [edit]).season


def test_bands_are_as_good_as_without_the_old_plan_and_the_bound_says_so(
    cup, short_rules, short_plan
):
    alone = solve_season(cup, short_rules, QUICK)

    near = solve_near(cup, short_rules, short_plan, QUICK)

    value = emphasis_value(cup, Prices(), near.plan)
    assert value == alone.stages[0].objective == near.stages[0].bound
    assert audit_plan(cup, near.plan, short_rules) == []


def test_fewer_cells_change_than_in_a_search_of_its_own(cup, short_rules, short_plan):
    alone = solve_season(cup, short_rules, QUICK)

    near = solve_near(cup, short_rules, short_plan, QUICK)

    assert len(changed_cells(short_plan, near.plan)) <= len(changed_cells(short_plan, alone.plan))


def test_a_clash_is_a_clash(short, short_rules, short_plan):
    tight = [
        rule.model_copy(update={"pre_season": rule.pre_season.model_copy(update={"gym": 0})})
        if rule.name == "session_caps"
        else rule
        for rule in short_rules
    ]

    near = solve_near(short.season, tight, short_plan, QUICK)

    assert (near.status, near.plan) == ("clash", None)
