import dataclasses

import numpy as np
from group_seasons import STARTERS, TWO

from optimiser.domain.group import Group
from optimiser.domain.quality import Dose
from optimiser.domain.rates import Rates
from optimiser.groups.group_rules import let_off
from optimiser.groups.groups_apart import minutes_by_quality, weeks_apart
from optimiser.groups.member import members_of
from optimiser.groups.solve import agree, solve_groups
from optimiser.joint_model.cost import season_cost
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import solve_season
from optimiser.response.readiness import units
from optimiser.review.audit import audit_plan
from optimiser.review.score import training_minutes

QUICK = Settings(quick=True)


def test_bands_and_sessions_are_the_same_wherever_a_group_trains(three):
    members, outcome = three
    first, second, late = outcome.plans

    assert first.field == second.field
    assert first.gym == second.gym
    assert first.rungs == second.rungs
    assert late.field == (0, 0, 0, *first.field[3:])
    assert late.gym == (0, 0, 0, *first.gym[3:])
    assert agree(members, outcome.plans)


def test_a_group_that_comes_back_restarts_as_anybody_and_climbs_below_the_squad(three, rules):
    members, outcome = three
    first, late = outcome.plans[0], outcome.plans[2]
    season, kept = members[2].season, members[2].rules
    (reentry,) = (rule for rule in rules if rule.name == "reentry")

    assert reentry in kept
    assert reentry.audit(late, season) == []
    assert all(row[3] < reentry.rung for row in late.rungs)
    own, lead = (np.array([row[3:] for row in plan.rungs]) for plan in (late, first))
    assert (own <= lead).all()
    assert {each.rule for each in let_off(rules, kept, late, season)} <= {"blocks", "revisit"}


def test_the_squads_bands_are_too_high_for_a_group_that_comes_back(three):
    members, outcome = three
    first, late = outcome.plans[0], outcome.plans[2]
    lead = tuple((None,) * 3 + tuple(row[3] + 1 for _ in row[3:]) for row in first.rungs)

    assert not agree(members, [*outcome.plans[:2], late.model_copy(update={"rungs": lead})])


def test_every_group_keeps_every_rule_of_its_own_season(three):
    members, outcome = three

    assert [
        audit_plan(member.season, plan, member.rules)
        for member, plan in zip(members, outcome.plans, strict=True)
    ] == [[], [], []]


def cost_of(member, plan):
    return season_cost(member.season, member.rules, plan, Rates()).total


def test_the_joint_objective_is_the_sum_worked_out_from_each_plan(three):
    members, outcome = three
    parts = [cost_of(member, plan) for member, plan in zip(members, outcome.plans, strict=True)]

    assert outcome.verdict.cost == sum(parts)
    assert outcome.verdict.bound <= outcome.verdict.cost
    assert outcome.verdict.decided_by in ("proof", "gap")


def test_one_group_alone_is_the_plain_season(short, rules):
    alone = solve_groups(members_of(short.season, rules, STARTERS))
    plain = solve_season(short.season, rules)

    assert alone.verdict.parts == plain.verdict.parts
    assert alone.verdict.status == plain.verdict.status


def test_two_groups_together_never_cost_less_than_each_alone(short, rules, two):
    members, outcome = two
    plan = outcome.plans[0]
    alone = solve_season(short.season, rules).verdict

    assert cost_of(members[0], plan) >= alone.bound


def test_those_who_do_not_play_make_up_the_sprinting_of_the_matches(two):
    members, outcome = two
    playing, resting = (
        minutes_by_quality(member.season, plan)["sprint"]
        for member, plan in zip(members, outcome.plans, strict=True)
    )

    assert resting >= playing


def test_a_group_that_joins_late_does_nothing_before_and_comes_back_in_steps(three):
    members, outcome = three
    season, plan = members[2].season, outcome.plans[2]
    full = season.full_minutes()

    assert all(dose is Dose.NONE for row in plan.doses for dose in row[:3])
    minutes = [training_minutes(season, plan, week) for week in range(3, 7)]
    assert minutes[0] > 0
    assert all(
        have <= full * share / 100 for have, share in zip(minutes, (50, 70, 80, 90), strict=True)
    )


def test_weeks_apart_leaves_out_groups_that_are_away(three):
    members, outcome = three
    first, second, _ = outcome.plans

    apart = weeks_apart(members, outcome.plans)

    assert [week for week in apart if week < 3] == [
        week
        for week in range(3)
        if any(a[week] != b[week] for a, b in zip(first.doses, second.doses, strict=True))
    ]


def test_a_group_of_more_weight_comes_no_further_from_its_targets(short, rules, two):
    heavy = dict(TWO)
    heavy[Group.NON_PLAYING] = TWO[Group.NON_PLAYING].model_copy(update={"weight": 50})
    members = members_of(short.season, rules, heavy)

    plans = solve_groups(members).plans

    even = cost_of(members[1], two[1].plans[1])
    assert cost_of(members[1], plans[1]) <= even * 1.02


def test_priced_rules_are_paid_by_every_group(short, rules):
    dear = [r.model_copy(update={"price": 40}) if r.name == "deload" else r for r in rules]
    members = members_of(short.season, dear, TWO)

    outcome = solve_groups(members, QUICK)

    paid = sum(
        40 * breach.excess
        for member, plan in zip(members, outcome.plans, strict=True)
        for breach in audit_plan(member.season, plan, member.rules)
    )
    assert outcome.verdict.parts.rules == units(Rates().rule) * paid
    assert outcome.verdict.bound <= outcome.verdict.cost


def test_a_clash_says_whose_rules_clash(short, rules):
    pin = next(rule for rule in rules if rule.name == "pin")
    choice = {"week": 1, "quality": "sprint", "band": "S5"}
    clashing = [*(r for r in rules if r is not pin), type(pin)(choices=(choice,))]

    outcome = solve_groups(members_of(short.season, clashing, TWO))

    assert (outcome.status, outcome.plans) == ("clash", ())
    assert outcome.clashing == ("starters", "non-playing")


def test_what_no_group_alone_forbids_can_clash_together(short, rules):
    pin = next(rule for rule in rules if rule.name == "pin")
    first, second = members_of(short.season, [r for r in rules if r is not pin], TWO)
    bands = ({"week": 5, "quality": "power", "band": band} for band in (1, 2))
    members = [
        dataclasses.replace(member, rules=(*member.rules, type(pin)(choices=(choice,))))
        for member, choice in zip((first, second), bands, strict=True)
    ]

    outcome = solve_groups(members)

    assert (outcome.status, outcome.clashing) == ("clash", ())


def test_the_same_seed_gives_the_same_plans(short, rules, two):
    again = solve_groups(members_of(short.season, rules, TWO))

    assert again.plans == two[1].plans


def test_better_solutions_are_told_on_the_way(short, rules):
    seen = []

    solve_groups(members_of(short.season, rules, TWO), QUICK, watch=seen.append)

    costs = [progress.cost for progress in seen]
    assert costs == sorted(costs, reverse=True)
    assert all(progress.bound <= progress.cost for progress in seen)


def test_too_little_effort_is_never_called_a_proof(short, rules):
    outcome = solve_groups(members_of(short.season, rules, TWO), Settings(steps=0, close=0.0))

    assert outcome.status == "planned"
    assert outcome.verdict.bound <= outcome.verdict.cost
    assert outcome.verdict.status != "proven" or outcome.verdict.gap <= 1e-4
