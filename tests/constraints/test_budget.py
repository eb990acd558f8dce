import pytest
from made_seasons import (
    assert_agrees,
    audit_excess,
    audit_price,
    make_plan,
    make_quality,
    make_season,
)

from constraints.budget import Budget, Ceiling
from optimiser.domain.season import Phase
from optimiser.rule import Waiver

CONTACTS = Budget(ceilings={"contacts": Ceiling(off_season=100, pre_season=60, in_season=40)})
JUMPS = make_quality(
    "plyometrics", "field", minutes=(10, 20, 40), amounts=({"contacts": 80}, {"contacts": 50})
)
HOPS = make_quality(
    "sprint", "field", minutes=(10, 20, 40), amounts=({"contacts": 20}, {"near_top_speed_m": 90})
)
THREE = make_season(3, qualities=(JUMPS, HOPS))


def test_reports_week_amount_and_excess():
    plan = make_plan(THREE, [0], [[0], [1]], [[0, 3, 2], [0, 3, 0]])

    assert audit_excess(CONTACTS, plan, THREE) == {
        (1, None, "contacts", "contacts"): 40,
    }
    assert_agrees(CONTACTS, plan, THREE)


def test_adds_up_the_qualities_of_a_week():
    plan = make_plan(THREE, [0], [[1], [0]], [[2, 0, 3], [3, 3, 0]])

    assert [breach.excess for breach in CONTACTS.audit(plan, THREE)] == [5, 10]
    assert_agrees(CONTACTS, plan, THREE)


def test_a_ceiling_just_below_what_a_week_could_use_counts():
    rule = Budget(ceilings={"contacts": Ceiling(off_season=99, pre_season=99, in_season=99)})
    plan = make_plan(THREE, [0], [[0], [0]], [[3, 3, 1], [3, 2, 1]])

    assert [(b.week, b.excess) for b in rule.audit(plan, THREE)] == [(0, 1)]
    assert_agrees(rule, plan, THREE)


def test_each_phase_has_its_ceiling():
    season = make_season(3, qualities=(JUMPS, HOPS), phases=(Phase.OFF, Phase.PRE, Phase.IN))
    plan = make_plan(season, [0, 1, 2], [[0, 0, 0], [1, 1, 1]], [[3, 3, 3], [0, 0, 0]])

    assert [(b.week, b.excess) for b in CONTACTS.audit(plan, season)] == [(1, 20), (2, 40)]
    assert_agrees(CONTACTS, plan, season)


def test_a_ceiling_that_is_just_met_is_no_breach():
    rule = Budget(ceilings={"contacts": Ceiling(off_season=0, pre_season=0, in_season=80)})
    plan = make_plan(THREE, [0], [[0], [0]], [[3, 0, 3], [0, 0, 0]])

    assert rule.audit(plan, THREE) == []
    assert_agrees(rule, plan, THREE)


@pytest.mark.parametrize(("amount", "minutes"), [(11, (15, 18, 22)), (13, (15, 20, 26))])
def test_a_half_is_rounded_the_same_way_by_rows_and_audit(amount, minutes):
    bands = ({"contacts": amount}, {})
    season = make_season(
        1, qualities=(make_quality("plyometrics", "field", minutes=minutes, amounts=bands),)
    )
    rule = Budget(ceilings={"contacts": Ceiling(off_season=0, pre_season=0, in_season=0)})
    plan = make_plan(season, [0], [[0]], [[1]])

    assert audit_price(rule, plan, season) == 8
    assert_agrees(rule, plan, season)


def test_a_waiver_gives_way_in_its_week_only():
    rule = CONTACTS.model_copy(update={"waive": (Waiver(week=1, part="contacts", by=15),)})
    plan = make_plan(THREE, [0], [[0], [1]], [[3, 3, 0], [0, 0, 0]])

    assert [(b.week, b.excess) for b in rule.audit(plan, THREE)] == [(0, 25), (1, 40)]
    assert_agrees(rule, plan, THREE)


def test_an_amount_nobody_carries_costs_nothing():
    rule = Budget(ceilings={"throws": Ceiling(off_season=0, pre_season=0, in_season=0)})
    plan = make_plan(THREE, [0], [[0], [0]], [[3, 3, 3], [3, 3, 3]])

    assert rule.audit(plan, THREE) == []
    assert_agrees(rule, plan, THREE)
