"""Several squads in one week on what they share."""

from dataclasses import replace
from itertools import combinations

from day_seasons import at, plan_of, season_of

from optimiser.days.shared import Booking, Pool, bookings, clashes, free_in, share_week
from optimiser.days.week import WeekMaker

GYM = Pool("Gym", frozenset({"gym"}), opens=8 * 60, closes=22 * 60)
PITCH = Pool("Pitch", frozenset({"field", "practice"}))
DOSES = {"sprint": 1, "power": 2, "strength": 2}


def squads(count):
    """Return so many squads with the same week, which all want the same hours."""
    season = season_of(at(0, 5), at(1, 5), at(2, 5))
    plan = plan_of(season, DOSES, 1, 2)
    maker = WeekMaker(season)
    pairs = [maker.alone(plan, 1) for _ in range(count)]
    return [task for task, _ in pairs], [placed for _, placed in pairs]


def test_squads_that_fit_keep_their_own_best_days_and_that_is_proven():
    tasks, alone = squads(2)
    found = share_week(tasks, alone, [replace(GYM, holds=2), replace(PITCH, holds=2)], [1, 1])

    assert found.placed == tuple(alone)
    assert found.proven
    assert not found.joint


def test_no_two_squads_are_in_a_room_for_one_at_a_time():
    tasks, alone = squads(2)
    found = share_week(tasks, alone, [GYM, PITCH], [1, 1])
    booked = bookings(tasks, found.placed)

    assert clashes(bookings(tasks, alone), [GYM])
    assert clashes(booked, [GYM, PITCH]) == []
    gym = [each for each in booked if each.use == "gym"]
    assert len(gym) == 4
    assert all(a.end <= b.start or b.end <= a.start for a, b in combinations(gym, 2))
    assert [placed.faults for placed in found.placed] == [0, 0]
    assert found.bound <= found.cost


def test_sharing_never_costs_less_than_having_a_room_alone():
    tasks, alone = squads(2)
    shared = share_week(tasks, alone, [GYM], [1, 1])
    apart = share_week(tasks, alone, [replace(GYM, holds=2)], [1, 1])

    assert shared.joint
    assert shared.cost >= apart.cost == sum(placed.cost for placed in alone)


def test_who_weighs_less_gives_way_where_there_is_no_room_for_all():
    tasks, alone = squads(2)
    short = replace(GYM, opens=10 * 60, closes=11 * 60)
    alike = [
        replace(task, settings=task.settings.model_copy(update={"rest_days": ()})) for task in tasks
    ]
    closed = [
        replace(
            task,
            days=tuple(
                day if day.index in (1, 3) else replace(day, kind="rest") for day in task.days
            ),
        )
        for task in alike
    ]
    first, second = share_week(closed, alone, [short], [3, 1]).placed

    assert first.faults <= second.faults
    assert second.faults > 0


def test_a_coach_of_one_squad_binds_that_squad_only():
    tasks, alone = squads(2)
    coach = Pool("Coach", frozenset({"gym"}), squads=frozenset({0}))

    assert not share_week(tasks, alone, [coach], [1, 1]).joint


def test_a_room_is_free_while_no_more_squads_are_in_it_than_leave_one_place():
    booked = [
        Booking(0, "gym", 600, 660),
        Booking(1, "gym", 630, 700),
        Booking(2, "field", 600, 700),
    ]
    pool = replace(GYM, holds=2)

    def free(start, end):
        return free_in(booked, pool, 0, start, end)

    assert free(560, 630)
    assert not free(560, 635)
    assert free(660, 720)
    assert not free(7 * 60, 8 * 60 + 30)
    assert free_in(booked, pool, 1, 630, 650)
