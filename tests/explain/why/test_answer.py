from dataclasses import replace

import pytest

from constraints.pin import Pin, Pinned
from optimiser.domain.quality import Dose
from optimiser.domain.rates import Rates
from optimiser.explain.why.answer import Forbidden, Possible, why_not
from optimiser.explain.why.asked import Asked
from optimiser.joint_model.cost import season_cost
from optimiser.review.audit import audit_plan
from optimiser.review.score import match_score, readiness


@pytest.fixture(scope="module")
def ask(minimal, usual_rules, planned, quick):
    known = {}

    def answer(**choice):
        asked = Asked(**choice)
        if asked not in known:
            known[asked] = why_not(minimal.season, usual_rules, planned, asked, quick)
        return asked, known[asked]

    return answer


def test_a_choice_no_plan_can_have_is_forbidden_by_a_smallest_clash(ask):
    _, answer = ask(week=0, quality="sprint", rung=4)

    assert isinstance(answer, Forbidden)
    assert not answer.season_clashes
    assert answer.clash.minimal
    assert {demand.rule for demand in answer.clash.demands} == {"reentry", "asked"}


def test_no_dose_where_one_is_due_is_forbidden_by_exposure(ask):
    _, answer = ask(week=8, quality="sprint", dose=Dose.NONE)

    assert isinstance(answer, Forbidden)
    assert {demand.rule for demand in answer.clash.demands} == {"exposure", "asked"}


@pytest.fixture(scope="module")
def possible(minimal, planned, ask):
    """Sprint one rung lower in week 9."""
    rung = planned.rungs[0][8] - 1
    asked, answer = ask(week=8, quality="sprint", rung=rung)
    assert isinstance(answer, Possible)
    return asked, answer


def test_a_possible_choice_comes_with_a_plan_that_has_it_and_keeps_the_rules(
    minimal, usual_rules, possible
):
    asked, answer = possible

    assert answer.plan.rungs[0][asked.week] == asked.rung
    assert audit_plan(minimal.season, answer.plan, [*usual_rules, asked]) == []


def test_terms_add_up_to_what_it_costs(minimal, usual_rules, planned, possible):
    asked, answer = possible
    was, now = (
        season_cost(minimal.season, [*usual_rules, asked], plan, Rates()).total
        for plan in (planned, answer.plan)
    )

    assert answer.cost.terms.total == now - was
    assert answer.cost.low <= now - was
    assert answer.cost.proven == (answer.cost.low == now - was)


def test_fixtures_score_and_moves_are_those_of_the_two_plans(minimal, planned, possible):
    season, (_, answer) = minimal.season, possible
    was, now = readiness(season, planned)[0], readiness(season, answer.plan)[0]

    assert len(answer.fixtures) == len(season.fixtures)
    for each in answer.fixtures:
        assert (each.before, each.after) == (was[each.week], now[each.week])
    scores = [match_score(season, plan).score for plan in (answer.plan, planned)]
    assert answer.score == pytest.approx(scores[0] - scores[1])
    assert any(move.week == 8 and move.quality == 0 for move in answer.moves)


def test_a_season_without_a_plan_says_so_instead_of_blaming_the_choice(
    impossible, usual_rules, plain_plan, quick
):
    rules = [r if r.name != "reentry" else r.model_copy(update={"rung": 1}) for r in usual_rules]
    blocked = Pin(choices=(Pinned(week=1, quality="power", band=3),))
    asked = Asked(week=5, quality="sprint", rung=1)
    plan = plain_plan(impossible.season)

    answer = why_not(impossible.season, [*rules, blocked], plan, asked, quick)

    assert isinstance(answer, Forbidden)
    assert answer.season_clashes


def test_the_plans_own_choice_is_as_good(minimal, usual_rules, planned, ask):
    _, answer = ask(week=8, quality="sprint", rung=planned.rungs[0][8])

    assert isinstance(answer, Possible)
    assert answer.cost.terms.total <= 0


def test_equal_means_that_the_season_costs_as_much(possible):
    _, answer = possible
    same = replace(answer.cost, terms=answer.cost.terms.minus(answer.cost.terms))

    assert not answer.equal
    assert replace(answer, cost=same).equal


@pytest.mark.parametrize(
    ("choice", "says"),
    [
        ({"rung": 2}, "Sprint on band S3 in week 9"),
        ({"dose": Dose.FULL}, "Sprint at dose full in week 9"),
    ],
)
def test_what_is_asked_in_words(minimal, choice, says):
    assert Asked(week=8, quality="sprint", **choice).says(minimal.season) == says
