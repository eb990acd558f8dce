import datetime as dt

import pytest

from optimiser.change.apply import apply_edits
from optimiser.change.cells import changed_cells
from optimiser.change.decided import Decided
from optimiser.change.trade import trade_off
from optimiser.domain.edits import Close
from optimiser.joint_model.effort import Settings
from optimiser.review.audit import audit_plan
from optimiser.review.score import match_score
from tests.done_days import lived_after, record

QUICK = Settings(quick=True)
WEEKS = 6


@pytest.fixture(scope="module")
def moved(minimal):
    """The season with a week closed late in it."""
    edit = Close(first=dt.date(2027, 4, 12), last=dt.date(2027, 4, 18))
    return apply_edits(minimal.scenario, minimal.season, [edit]).season


@pytest.fixture(scope="module")
def trade(moved, rules, plan):
    return trade_off(moved, rules, plan, Decided(plan, WEEKS), QUICK)


def test_plans_go_from_the_least_change_to_the_best(trade):
    cells = [choice.cells for choice in trade.choices]
    scores = [choice.match for choice in trade.choices]

    assert cells == sorted(cells)
    assert scores == sorted(scores)
    assert len(set(cells)) == len(cells) >= 2


def test_what_is_decided_stands_in_every_plan(trade, plan):
    for choice in trade.choices:
        assert changed_cells(plan, choice.plan)[0].week >= WEEKS
        assert choice.plan.field[:WEEKS] == plan.field[:WEEKS]


def test_every_plan_keeps_every_rule(trade, moved, rules):
    for choice in trade.choices:
        assert audit_plan(moved, choice.plan, rules) == []
        assert choice.forced == ()


def test_cells_and_scores_are_those_of_the_plans(trade, moved, plan):
    for choice in trade.choices:
        assert choice.cells == len(changed_cells(plan, choice.plan, WEEKS))
        assert choice.match == match_score(moved, choice.plan).score


def test_the_fewest_changes_are_proven(trade):
    assert 0 < trade.at_least <= trade.choices[0].cells


def test_a_season_that_did_not_change_needs_no_change(season, rules, plan):
    found = trade_off(season, rules, plan, Decided(plan, WEEKS), QUICK)

    assert (found.choices[0].cells, found.at_least) == (0, 0)
    assert found.choices[0].plan == plan


def test_no_session_changes_in_a_week_without_a_changed_cell(trade, plan):
    for choice in trade.choices:
        changed = {change.week for change in changed_cells(plan, choice.plan)}
        moved = {
            week
            for week in range(plan.weeks)
            if (plan.field[week], plan.gym[week])
            != (choice.plan.field[week], choice.plan.gym[week])
        }
        assert moved <= changed


def test_missed_weeks_do_not_stop_the_rest(season, rules, plan):
    log = [record(season, week, key, dose="none") for week in (3, 4, 5) for key in season.keys]
    done = lived_after(season, plan, WEEKS, log)

    found = trade_off(done.season, rules, plan, Decided(done.plan, WEEKS), QUICK)

    assert found.status == "planned"
    for choice in found.choices:
        breaches = audit_plan(season, choice.plan, rules)
        late = [b for b in breaches if b.week is not None and b.week >= WEEKS]
        assert tuple(late) == choice.forced
