from itertools import combinations, product

import pytest
from all_spreads import spreads
from day_seasons import at, plan_of, season_of
from hypothesis import given
from hypothesis import settings as hypothesis_settings
from hypothesis import strategies as st

from optimiser.days.day import season_days
from optimiser.days.faults import faults
from optimiser.days.pieces import week_pieces
from optimiser.days.placing import Task
from optimiser.days.practice import Practices
from optimiser.days.spacing_settings import DaySettings, SessionLimits
from optimiser.days.timetable import place_week
from optimiser.domain.fixture import Priority

SATURDAYS = (at(0, 5), at(1, 5), at(2, 5))
LIMITS = SessionLimits()
FULL = dict.fromkeys(("sprint", "sled", "jumps", "power", "strength", "upper_body"), 3)
TOUCH = dict.fromkeys(FULL, 1)


def task(season, doses, field=1, gym=1, week=1, practice=(), limits=LIMITS, **changes):
    settings = DaySettings(**changes)
    plan = plan_of(season, doses, field, gym)
    return Task(
        season_days(season, settings)[week],
        {place: week_pieces(season, plan, week, place) for place in ("field", "gym")},
        {"field": field, "gym": gym},
        Practices(count=len(practice), order=tuple(practice), fixed=tuple(practice)),
        settings,
        limits,
    )


def days_with(placed, mark):
    return sorted(
        day
        for put in (placed.field, placed.gym)
        for day, held in zip(put.days, put.spread.sessions, strict=True)
        if getattr(held, mark)
    )


def test_a_touch_of_top_speed_comes_two_days_before_a_match():
    placed = place_week(task(season_of(*SATURDAYS), {"sprint": 1, "strength": 1}))

    assert placed.field.days == (3,)


def test_top_speed_comes_two_days_before_a_match_even_where_practice_is_elsewhere():
    placed = place_week(task(season_of(*SATURDAYS), {"sprint": 1}, gym=0, practice=(1,)))

    assert placed.field.days == (3,)


def test_no_touch_of_top_speed_is_asked_for_where_matches_are_four_days_apart():
    season = season_of(at(1, 1), at(1, 5))
    placed = place_week(task(season, {"sprint": 1}, gym=0, practice=(0,)))

    # Thursday is two days before the match, but Monday, with practice, costs less.
    assert placed.field.days == (0,)


def test_hard_lifting_comes_early_in_the_week():
    placed = place_week(task(season_of(*SATURDAYS), {"sprint": 1, "strength": 3}))

    assert placed.gym.days == (1,)


def test_hard_lifting_ends_three_days_before_a_high_fixture():
    season = season_of(*SATURDAYS[:1], at(1, 5, priority=Priority.HIGH))
    placed = place_week(task(season, {"power": 3, "strength": 3}, field=0, gym=2))

    assert placed.gym.days == (0, 2)


def test_field_work_goes_to_a_day_of_practice():
    placed = place_week(task(season_of(*SATURDAYS), {"sled": 1}, gym=0, practice=(2,)))

    assert placed.field.days == (2,)


def test_the_day_before_a_match_is_left_alone_where_another_day_is_open():
    placed = place_week(task(season_of(*SATURDAYS), TOUCH, 1, 1, practice=(4,)))

    assert 4 not in (*placed.field.days, *placed.gym.days)


def test_full_doses_of_everything_find_two_days_apart():
    placed = place_week(task(season_of(*SATURDAYS), FULL, 2, 2))

    assert placed.faults == 0
    hard = set(days_with(placed, "hard"))
    assert hard in ({0, 2}, {0, 3}, {1, 3})


def test_work_is_parted_where_one_session_would_last_too_long():
    placed = place_week(task(season_of(*SATURDAYS), {"sprint": 3, "sled": 3, "jumps": 3}, 2, 0))

    assert [held.minutes for held in placed.field.spread.sessions] == [45, 45]


def test_no_session_holds_more_pieces_than_asked():
    limits = SessionLimits(pieces=2, field_minutes=90)
    doses = {"sprint": 1, "sled": 1, "jumps": 1}
    placed = place_week(task(season_of(*SATURDAYS), doses, 2, 0, limits=limits))

    assert max(held.pieces for held in placed.field.spread.sessions) == 2


def test_the_same_week_is_placed_alike_every_time():
    tasks = [task(season_of(*SATURDAYS), FULL, 2, 2, practice=(1, 3)) for _ in range(2)]

    assert place_week(tasks[0]) == place_week(tasks[1])


def test_a_week_without_sessions_is_placed_on_no_day():
    placed = place_week(task(season_of(*SATURDAYS), {}, 0, 0))

    assert (placed.field.days, placed.gym.days, placed.faults) == ((), (), 0)


@pytest.mark.parametrize("field", [1, 3, 5])
def test_a_week_full_of_matches_is_placed_all_the_same_and_its_faults_are_counted(field):
    season = season_of(*(at(1, day) for day in range(7)))
    placed = place_week(task(season, FULL, field, 1))

    assert len(placed.field.days) == field
    assert placed.faults > 0


DOSES = st.fixed_dictionaries(dict.fromkeys(("sprint", "jumps", "strength"), st.integers(1, 3)))
MATCHES = st.sets(st.integers(0, 20), max_size=6)


@hypothesis_settings(max_examples=25)
@given(matches=MATCHES, doses=DOSES, field=st.integers(1, 2), gym=st.integers(1, 2))
def test_where_any_choice_keeps_every_spacing_the_one_taken_does(matches, doses, field, gym):
    season = season_of(*(at(day // 7, day % 7) for day in sorted(matches)))
    asked = task(season, doses, field, gym)

    assert (place_week(asked).faults == 0) == _possible(asked)


def _possible(asked):
    """Try every day and every way of both places, and judge by the list of faults."""
    ways = {
        place: spreads(asked.pieces[place], asked.counts[place], 45, LIMITS)
        for place in ("field", "gym")
    }
    choices = [
        [
            (days, spread.sessions)
            for days in combinations(range(7), asked.counts[place])
            for spread in ways[place]
            if not faults(asked.days, _on(days, spread.sessions), asked.settings)
        ]
        for place in ("field", "gym")
    ]
    return any(
        not faults(asked.days, _on(*field, gym), asked.settings) for field, gym in product(*choices)
    )


def _on(days, sessions, other=((), ())):
    held = {}
    for on, has in ((days, sessions), other):
        for day, session in zip(on, has, strict=True):
            held.setdefault(day, []).append(session)
    return held
