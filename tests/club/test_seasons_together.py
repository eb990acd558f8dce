"""Seasons of several squads together on what they share."""

import datetime as dt
from dataclasses import replace

import pytest
from club_seasons import GYM, WEEKS, best_club_cost, gym

from optimiser.club.fitting_seasons import ROUNDS, plan_together
from optimiser.club.ground import FREE, Claim
from optimiser.club.open_hours import SquadDays, open_minutes
from optimiser.club.share import Unfit
from optimiser.club.squad_season import best_plan, club_cost, cost_of
from optimiser.club.time_limit import TimeUpError
from optimiser.days.day import season_days
from optimiser.days.practice import Practices
from optimiser.days.shared import Pool
from optimiser.days.spacing_settings import DaySettings
from optimiser.joint_model.ground_minutes import GroundMinutes


def plans_of(squads):
    return tuple(each.plan for each in squads)


def test_where_nothing_is_scarce_every_squad_keeps_its_own_best_plan(alike):
    wanted = max(ground.taken(alike, plans_of(alike)) for ground in gym(999))
    found = plan_together(alike, gym(wanted))

    assert found.plans == plans_of(alike)
    assert found.scarce == ()
    assert found.solved == 0
    assert found.cost == found.bound == club_cost(alike, found.plans)


@pytest.mark.parametrize("minutes", [60, 20])
def test_plans_never_take_more_hours_than_there_are_nor_cost_less_than_their_bound(alike, minutes):
    grounds = gym(minutes)
    found = plan_together(alike, grounds)

    assert found.over == ()
    assert all(ground.taken(alike, found.plans) <= minutes for ground in grounds)
    assert found.bound <= found.cost == club_cost(alike, found.plans)
    assert found.cost > club_cost(alike, plans_of(alike))
    assert all(found.prices[at] for at in found.scarce)


def test_the_bound_holds_and_is_near_where_every_share_of_the_hours_is_tried(alike):
    (ground,) = gym(50, weeks=[2])
    best = best_club_cost(alike, ground)
    found = plan_together(alike, [ground])

    # each share is searched to within a thousandth
    assert found.bound <= best <= 1.001 * found.cost
    assert found.cost <= 1.01 * best


def test_priority_decides_who_gives_way(alike):
    first, second = alike
    other = (replace(first, weight=1), replace(second, weight=3))
    grounds = gym(40)
    found, turned = plan_together(alike, grounds), plan_together(other, grounds)
    lost = [cost_of(each, plan) - cost_of(each, each.plan)
            for each, plan in zip(alike, found.plans, strict=True)]  # fmt: skip
    back = [cost_of(each, plan) - cost_of(each, each.plan)
            for each, plan in zip(other, turned.plans, strict=True)]  # fmt: skip

    assert lost[0] < lost[1]
    assert back[1] < back[0]


def test_team_practice_is_no_ones_to_give_up(alike):
    (ground,) = gym(60, weeks=[2])
    practised = replace(ground, claims=(Claim(0, 2, GYM, fixed=40), ground.claims[1]))

    assert practised.left == 20
    found = plan_together(alike, [practised])
    assert practised.taken(alike, found.plans) <= 20


def test_who_has_no_whole_timetable_gives_hours_up_though_they_would_be_open(alike):
    grounds = gym(999)

    def unfit(plans):
        """Tell that the gym never holds more than one squad's hour of week 3."""
        more = grounds[2].taken(alike, plans) - 60
        return [Unfit(1, 2, more)] if more > 0 else []

    found = plan_together(alike, grounds, unfit)
    assert found.scarce == (2,)
    assert grounds[2].taken(alike, found.plans) <= 60
    assert found.bound <= found.cost


@pytest.mark.parametrize(("stop", "ended"), [(TimeUpError, "clock"), (KeyboardInterrupt, "hand")])
def test_a_search_that_is_stopped_gives_the_best_it_has_and_what_ended_it(alike, stop, ended):
    asked = []

    def unfit(plans):
        """Have no timetable twice, and be stopped then."""
        asked.append(plans)
        if len(asked) > 2:
            raise stop
        return [Unfit(1, 2, 20)]

    found = plan_together(alike, gym(999), unfit)

    assert (found.ended, found.decided_by) == (ended, ended)
    assert found.plans in asked[:2]
    assert found.cost == min(club_cost(alike, plans) for plans in asked[:2])
    assert found.unfit == (2,)
    assert found.bound <= found.cost


def test_who_can_give_up_no_more_keeps_what_its_rules_need_and_the_search_ends(alike):
    found = plan_together(alike, gym(999), lambda _: [Unfit(1, 2, 999)])

    assert found.ended == "done" or found.rounds == ROUNDS
    assert found.unfit == (2,)


def test_a_price_makes_a_plan_take_fewer_minutes_and_its_cost_is_told_from_the_plan_alone(alike):
    own = alike[1]
    hours = GroundMinutes(FREE.beside, prices={("gym", week): 3000 for week in range(WEEKS)})
    answer = best_plan(own, hours, own.plan)

    def minutes(plan):
        return sum(hours.minutes(own.season, plan, "gym", week) for week in range(WEEKS))

    assert minutes(answer.plan) < minutes(own.plan)
    assert hours.cost(own.season, answer.plan) == 3000 * minutes(answer.plan)
    paid = cost_of(own, answer.plan) + hours.cost(own.season, answer.plan)
    assert paid == pytest.approx(answer.bound, rel=1e-2)
    assert paid < cost_of(own, own.plan) + hours.cost(own.season, own.plan)


def test_a_room_is_open_to_no_more_squads_than_can_come(alike):
    season = alike[0].season
    evening = DaySettings(earliest=dt.time(18), latest=dt.time(20), closes=dt.time(21))
    weeks = [
        SquadDays(at, season_days(season, settings)[1], settings, Practices())
        for at, settings in enumerate((evening, DaySettings()))
    ]
    room = Pool("Gym", frozenset({"gym"}), 2, 17 * 60, 20 * 60)
    trainable = [day.index for day in weeks[0].days if day.trainable]

    # one squad can come from 17:00, both from 18:00
    assert open_minutes(room, weeks) == len(trainable) * (60 + 2 * 120)
    assert open_minutes(replace(room, squads=frozenset({0})), weeks) == len(trainable) * 120
    assert open_minutes(room, weeks, closed=trainable) == 0
