import datetime as dt
from collections import Counter
from itertools import pairwise
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimiser.domain.fixture import Priority
from optimiser.domain.setup_error import SetupError
from optimiser.league.clubs import MOST_CLUBS, invent_clubs, neighbours
from optimiser.league.cup import cup_rounds, draw_cup
from optimiser.league.league import make_league
from optimiser.league.settings import Closeness, LeagueSettings

START = dt.date(2026, 6, 15)


def league(**changes):
    return make_league(LeagueSettings(**{"start": START, **changes}))


def days_between(season):
    return [(later.date - earlier.date).days for earlier, later in pairwise(season.fixtures)]


leagues = st.builds(
    LeagueSettings,
    clubs=st.integers(4, 14),
    start=st.just(START),
    weeks=st.integers(44, 70),
    congestion=st.sampled_from(Closeness),
    seed=st.integers(0, 10_000),
)


@settings(max_examples=30, deadline=None)
@given(leagues)
def test_every_club_plays_every_other_twice_in_the_league(made):
    for season in make_league(made):
        met = Counter(f.opponent for f in season.fixtures if f.competition == "League")

        assert len(met) == made.clubs - 1
        assert set(met.values()) == {2}


@settings(max_examples=30, deadline=None)
@given(leagues)
def test_both_clubs_have_a_match_on_the_same_day(made):
    seasons = {season.club.name: season for season in make_league(made)}

    for season in seasons.values():
        for fixture in season.fixtures:
            there = [f for f in seasons[fixture.opponent].fixtures if f.date == fixture.date]
            assert [f.opponent for f in there] == [season.club.name]


@settings(max_examples=60, deadline=None)
@given(leagues)
def test_peaks_are_one_peak_or_six_weeks_apart(made):
    for season in make_league(made):
        peaks = [f.date for f in season.fixtures if f.priority is Priority.HIGH]

        assert 1 <= len(peaks) <= 2
        assert all(not 14 < (later - earlier).days < 42 for earlier, later in pairwise(peaks))


@settings(max_examples=30, deadline=None)
@given(leagues)
def test_no_match_falls_into_a_rest_and_none_comes_within_three_days(made):
    for season in make_league(made):
        rests = [item for item in season.breaks if item.kind == "rest"]

        assert not [
            f for f in season.fixtures for item in rests if item.first <= f.date <= item.last
        ]
        assert min(days_between(season)) >= 3


def test_an_early_cup_final_gives_its_finalists_two_peaks():
    seasons = [s for seed in range(6) for s in league(seed=seed)]
    two = [
        [f.date for f in s.fixtures if f.priority is Priority.HIGH]
        for s in seasons
        if sum(f.priority is Priority.HIGH for f in s.fixtures) == 2
    ]

    assert any((later - earlier).days >= 42 for earlier, later in two)
    assert any((later - earlier).days <= 14 for earlier, later in two)


def test_neighbours_meet_at_medium_and_the_last_round_is_high():
    seasons = league(seed=3)

    for season in seasons:
        played = [f for f in season.fixtures if f.competition == "League"]
        medium = {f.opponent for f in played if f.priority is Priority.MEDIUM}
        assert len(medium) <= 1
        assert played[-1].priority is Priority.HIGH


def test_no_congestion_plays_on_weekends_only():
    assert {f.date.weekday() for s in league(congestion="none") for f in s.fixtures} == {5}


def test_more_congestion_brings_matches_closer():
    close = [
        sum(gap < 5 for s in league(congestion=level, clubs=14) for gap in days_between(s))
        for level in ("none", "some", "heavy")
    ]

    assert close[0] == 0
    assert close[0] < close[1] < close[2]


def test_some_congestion_plays_only_the_cup_in_midweek():
    seasons = league(congestion="some")

    midweek = [f for s in seasons for f in s.fixtures if f.date.weekday() == 2]
    assert {f.competition.partition(",")[0] for f in midweek} == {"Cup"}


def test_an_odd_club_out_has_its_bye_on_the_calendar():
    seasons = league(clubs=7, congestion="none")

    assert [sum(item.kind == "bye" for item in s.breaks) for s in seasons] == [2] * 7


def test_the_same_seed_gives_the_same_league_and_another_one_another():
    assert league(seed=5) == league(seed=5)
    assert league(seed=5) != league(seed=6)


def test_too_many_rounds_for_the_weeks_are_refused_with_what_to_do():
    with pytest.raises(SetupError, match=r"room for 25 rounds .* longer by 11 or more"):
        league(clubs=12, weeks=20, congestion="none")


def test_a_start_that_is_no_monday_is_refused():
    with pytest.raises(ValueError, match="nearest Monday is 2026-06-15"):
        league(start=dt.date(2026, 6, 16))


@given(st.integers(2, 40), st.integers(0, 99))
def test_a_knock_out_loses_one_club_a_match(clubs, seed):
    draw = draw_cup(clubs, Random(seed))

    assert len(draw) == cup_rounds(clubs)
    assert sum(map(len, draw)) == clubs - 1
    assert len(draw[-1]) == 1


def test_clubs_have_names_of_their_own():
    clubs = invent_clubs(MOST_CLUBS, Random(1))

    assert len({club.name for club in clubs}) == MOST_CLUBS


def test_each_club_has_at_most_one_neighbour():
    pairs = neighbours(invent_clubs(9, Random(2)))

    assert len(pairs) == 4
    assert len({club for pair in pairs for club in pair}) == 8
