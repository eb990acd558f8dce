import pytest

from optimiser.change.apply import apply_edits
from optimiser.change.cells import changed_cells
from optimiser.change.near import PER_CELL, PER_SESSION, solve_near
from optimiser.domain.edits import Add
from optimiser.joint_model.cost import season_cost
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import solve_season
from optimiser.review.audit import audit_plan

QUICK = Settings(quick=True)


def test_the_best_plan_of_an_unchanged_season_is_the_plan_itself(short, short_rules):
    best = solve_season(short.season, short_rules, Settings().to_the_end()).plan

    near = solve_near(short.season, short_rules, best, Settings().to_the_end())

    assert changed_cells(best, near.plan) == []
    assert near.verdict.status == "proven"
    assert near.verdict.changes == 0


@pytest.fixture(scope="module")
def cup(short):
    edit = Add(date="2026-10-07", opponent="Loxley", priority="medium")
    return apply_edits(short.scenario, short.season, [edit]).season


def test_a_plan_near_another_costs_no_more_than_what_its_changes_are_charged(
    cup, short_rules, short_plan
):
    settings = Settings()
    alone = solve_season(cup, short_rules, settings.to_the_end())

    near = solve_near(cup, short_rules, short_plan, settings.to_the_end())

    cost = season_cost(cup, short_rules, near.plan, settings.rates).total
    assert near.verdict.status == "proven"
    most = PER_CELL * len(changed_cells(short_plan, alone.plan)) + 10 * PER_SESSION
    assert alone.verdict.bound <= cost <= alone.verdict.cost + most
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
