"""What an audit says of a plan before all else."""

from cli.render.audit_verdict import breach_lines, broken
from constraints.rest import Rest
from constraints.taper import Taper
from optimiser.domain.quality import Dose
from optimiser.review.audit import structure

RULES = (Rest(), Taper())


def closed_week_worked(impossible, plain_plan):
    season = impossible.season
    plan = plain_plan(season)
    week = next(each.index for each in season.weeks if each.closed)
    doses = tuple((*row[:week], Dose.FULL, *row[week + 1 :]) for row in plan.doses)
    gym = (*plan.gym[:week], 3, *plan.gym[week + 1 :])
    return week, plan.model_copy(update={"doses": doses, "gym": gym})


def test_a_closed_week_that_is_worked_in_is_told_once(impossible, plain_plan):
    week, plan = closed_week_worked(impossible, plain_plan)
    breaches = structure(impossible.season, plan) + Rest().audit(plan, impossible.season)

    found = broken(breaches, RULES)

    told = [line for line in breach_lines(found) if f"week {week + 1} is closed" in line]
    assert len(told) == 1
    assert "3 sessions" in told[0]


def test_safety_comes_before_a_larger_excess_and_a_price_is_no_reason(impossible, plain_plan):
    priced = Rest(price=5)
    rules = (priced, Taper())
    [small] = Taper().breaches(1, "taper {week:has} 1 min", 2)
    [large] = Rest().breaches(90, "{week:has} 90 sessions", 3)

    both, paid = broken([large, small], rules), broken([large], rules)

    assert both.worst == small
    assert (both.usable, paid.usable) == (False, True)
