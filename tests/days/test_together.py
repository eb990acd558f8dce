"""Groups that train together are placed together."""

from itertools import combinations, product

import pytest
from day_seasons import at, plan_of, season_of
from hypothesis import assume, given
from hypothesis import settings as hypothesis_settings
from hypothesis import strategies as st
from test_spacing_promise import DOSES, MATCHES, RESTS, RULES, WEEKS, calendar, kept

from optimiser.days.common import Work, common_spreads
from optimiser.days.day import season_days
from optimiser.days.faults import faults
from optimiser.days.pieces import week_pieces
from optimiser.days.placing import Placed, Put, Task, choice_of, marks_of, worth_of
from optimiser.days.practice import Practices
from optimiser.days.shared_days import kept_together, roomy
from optimiser.days.spacing_settings import DaySettings, SessionLimits
from optimiser.days.timetable import place_week
from optimiser.days.together import place_together
from optimiser.days.week import WeekMaker
from optimiser.domain.quality import Dose
from optimiser.groups.days_together import shared_days

SATURDAYS = (at(0, 5), at(1, 5), at(2, 5))
PLACES = ("field", "gym")
LIMITS = SessionLimits()


def task(season, doses, field=1, gym=1, week=1, **changes):
    settings = DaySettings(**changes)
    plan = plan_of(season, doses, field, gym)
    return Task(
        season_days(season, settings)[week],
        {place: week_pieces(season, plan, week, place) for place in PLACES},
        {"field": field, "gym": gym},
        Practices(),
        settings,
        LIMITS,
    )


def tasks_of(season, *doses, **more):
    return [task(season, each, **more) for each in doses]


def work_days(asked, placed, key):
    """The days on which a group works on one quality."""
    for place in PLACES:
        put = getattr(placed, place)
        for piece, way in zip(asked.pieces[place], put.spread.ways, strict=True):
            if piece.quality.key == key:
                return {put.days[number] for number in way}
    return set()


def fault_words(asked, placed):
    held = {}
    for put in (placed.field, placed.gym):
        for day, session in zip(put.days, put.spread.sessions, strict=True):
            held.setdefault(day, []).append(session)
    return faults(asked.days, held, asked.settings)


def test_groups_with_the_same_work_are_placed_as_one_alone_would_be():
    asked = tasks_of(season_of(*SATURDAYS), *[{"sprint": 3, "strength": 2}] * 3, field=2)

    assert place_together(asked) == [place_week(asked[0])] * 3


def test_groups_that_would_be_on_different_days_alone_are_on_the_same_together():
    season = season_of(*SATURDAYS)
    asked = tasks_of(season, {"sled": 3, "strength": 3}, {"sled": 3, "strength": 1})
    alone = [place_week(each) for each in asked]

    first, second = place_together(asked)

    assert alone[0].field.days != alone[1].field.days
    assert (first.field.days, first.gym.days) == (second.field.days, second.gym.days)
    assert not fault_words(asked[0], first) + fault_words(asked[1], second)


def test_who_does_less_of_a_quality_does_it_with_those_who_do_more():
    season = season_of(*SATURDAYS)
    asked = tasks_of(
        season,
        {"sprint": 3, "jumps": 1, "strength": 3, "upper_body": 1},
        {"sprint": 1, "jumps": 3, "strength": 1, "upper_body": 3},
        field=2,
        gym=2,
    )

    placed = place_together(asked)

    for key, most in (("sprint", 0), ("jumps", 1), ("strength", 0), ("upper_body", 1)):
        days = [work_days(each, found, key) for each, found in zip(asked, placed, strict=True)]
        assert days[1 - most] <= days[most]


def test_where_no_one_way_gives_everybody_work_the_days_are_the_same_and_the_work_is_not():
    season = season_of(*SATURDAYS)
    pairs = combinations(("sprint", "sled", "jumps"), 2)
    asked = tasks_of(season, *(dict.fromkeys(pair, 1) for pair in pairs), field=2, gym=0)

    placed = place_together(asked)

    assert len({each.field.days for each in placed}) == 1
    assert [fault_words(a, p) for a, p in zip(asked, placed, strict=True)] == [[], [], []]


def test_a_group_with_fewer_sessions_leaves_some_of_them_out():
    season = season_of(*SATURDAYS)
    more = task(season, {"sprint": 3, "jumps": 3, "strength": 3}, field=2, gym=2)
    less = task(season, {"sprint": 3, "strength": 1}, field=1, gym=1)

    many, few = place_together([more, less])

    for place in PLACES:
        assert set(getattr(few, place).days) < set(getattr(many, place).days)
        assert len(getattr(few, place).days) == 1
    assert not fault_words(more, many) + fault_words(less, few)


SOME = st.dictionaries(
    st.sampled_from(["sprint", "jumps", "strength", "upper_body"]), st.integers(1, 3), min_size=1
)


@hypothesis_settings(max_examples=12)
@given(
    matches=st.sets(st.integers(0, 20), max_size=5),
    groups=st.lists(SOME, min_size=2, max_size=3),
    field=st.integers(1, 2),
)
def test_no_other_days_shared_the_same_way_are_worth_less(matches, groups, field):
    season = season_of(*(at(day // 7, day % 7) for day in sorted(matches)))
    asked = tasks_of(season, *groups, field=field)
    different = _different(asked)
    assume(len(different) > 1)  # one alone is placed with its hours

    placed = place_together(asked)
    options = list(_every(different))
    fewest = min(faults for (faults, _), _ in options)

    # The search takes another way to share work out only to break fewer spacings, and other days
    # only where the best leave no room for the longest warm-ups.
    assert sum(each.faults for each in _once(asked, placed)) <= fewest
    if fewest == 0:
        mine = _worth(asked, placed)
        better = [option for worth, option in options if worth < mine]
        assert mine in [worth for worth, _ in options]
        assert not any(kept_together(roomy(different), option) for option in better)


def test_days_without_room_for_the_longest_warm_ups_are_left_for_others():
    season = season_of(*(at(day // 7, day % 7) for day in (0, 6, 11)))
    less = {"sprint": 1, "strength": 1}
    asked = tasks_of(season, less, {"sprint": 2, "jumps": 3, "strength": 3, "upper_body": 3})

    mine = _worth(asked, place_together(asked))
    better = [option for worth, option in _every(asked) if worth < mine]

    assert better
    assert not any(kept_together(roomy(asked), option) for option in better)


def _different(asked):
    return [each for index, each in enumerate(asked) if each not in asked[:index]]


def _once(asked, placed):
    return [placed[index] for index, each in enumerate(asked) if each not in asked[:index]]


def _worth(asked, placed):
    pairs = zip(_different(asked), _once(asked, placed), strict=True)
    found = [_worth_on(each, (put.field, put.gym)) for each, put in pairs]
    return tuple(map(sum, zip(*found, strict=True)))


def _worth_on(each, puts):
    made = []
    for place, put in zip(PLACES, puts, strict=True):
        days = [each.days[day] for day in put.days]
        marks = marks_of(days, put.spread.sessions)
        made.append(choice_of(each, place, days, put.spread, marks))
    return worth_of(each, *made)


def _every(asked):
    """Yield every day of both places and every common way of both, with what it is worth."""
    open_days = [day.index for day in asked[0].days if day.trainable]
    options = {}
    for place in PLACES:
        count = asked[0].counts[place]
        work = [Work(each.pieces[place], count) for each in asked]
        spreads = common_spreads(work, count, asked[0].longest(place), LIMITS)
        fit = open_days if len(open_days) >= count else range(7)
        options[place] = [(days, spread) for days in combinations(fit, count) for spread in spreads]
    for (days, field), (others, gym) in product(options["field"], options["gym"]):
        puts = [(Put(days, f), Put(others, g)) for f, g in zip(field, gym, strict=True)]
        found = [_worth_on(each, put) for each, put in zip(asked, puts, strict=True)]
        worth = tuple(map(sum, zip(*found, strict=True)))
        yield worth, [Placed(*put, faults) for put, (faults, _) in zip(puts, found, strict=True)]


@hypothesis_settings(max_examples=25)
@given(
    rule=RULES,
    matches=MATCHES,
    rests=RESTS,
    groups=st.lists(DOSES, min_size=2, max_size=3),
    field=st.integers(1, 2),
    gym=st.integers(1, 2),
)
def test_what_the_rule_lets_through_for_every_group_has_legal_days_for_all_of_them(
    rule, matches, rests, groups, field, gym
):
    season = calendar(matches, rests)
    plans = _shared(season, [kept(rule, season, doses, field, gym) for doses in groups])
    makers = [WeekMaker(season, rule, calendar=season) for _ in plans]

    written = shared_days(makers, plans)

    for week in range(WEEKS):
        made = [m.week(p, week, w[week]) for m, p, w in zip(makers, plans, written, strict=True)]
        assert [each.faults for each in made] == [()] * len(plans)
        assert not any("alone" in note for each in made for note in each.notes)
        assert len({tuple((p.place, p.date) for p in each[week]) for each in written}) == 1


def _shared(season, plans):
    """Cut plans to the sessions that all of them have, and to the work these leave."""
    counts = {
        place: tuple(min(each) for each in zip(*(getattr(p, place) for p in plans), strict=True))
        for place in PLACES
    }
    places = [quality.place for quality in season.qualities]
    return [
        plan.model_copy(
            update={
                **counts,
                "doses": tuple(
                    tuple(
                        dose if count else Dose.NONE
                        for dose, count in zip(row, counts[place], strict=True)
                    )
                    for row, place in zip(plan.doses, places, strict=True)
                ),
            }
        )
        for plan in plans
    ]


@pytest.mark.parametrize("day", [5, 6])
def test_days_that_do_not_fit_the_plan_any_more_are_told_and_not_used(day):
    season = season_of(*SATURDAYS)
    maker = WeekMaker(season, calendar=season)
    plans = [plan_of(season, {"sprint": 1, "strength": dose}) for dose in (1, 3)]
    written = shared_days([maker, maker], plans)
    changed = plan_of(season, {"sprint": 1, "jumps": 1, "strength": 3})
    moved = [part.model_copy(update={"date": part.date.replace(day=day)}) for part in written[1][1]]

    for plan, days in ((changed, written[1][1]), (plans[1], moved), (plans[1], ())):
        made = maker.week(plan, 1, days)
        assert any("of this group alone" in note for note in made.notes)
        assert made.faults == ()
