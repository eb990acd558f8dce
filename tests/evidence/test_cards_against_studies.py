"""Computed cards against what was published on standing work, youth, return and blocks."""

import datetime as dt
from itertools import pairwise

import pytest

from optimiser.athlete.availability import AthleteHistory, AvailabilityEntry
from optimiser.athlete.card import ChosenBand, WeekInfo
from optimiser.athlete.cards import card
from optimiser.athlete.hold import hold_for
from optimiser.athlete.squad import Athlete
from optimiser.domain.quality import Dose
from optimiser.setup.qualities import default_qualities
from tests.athlete.card_weeks import choices
from tests.athlete.card_weeks import week as session_week

MONDAY = dt.date(2026, 10, 5)
LADDERS = {each.key: each for each in default_qualities()}
LIFTS = {key: {"one_rm_kg": 100} for key in ("squat", "bench_press", "front_squat")}


def sets(key, hold, rung=1):
    """Return all sets of a full dose on a card of one quality."""
    who = Athlete(name="Ada", group="squad", body_mass_kg=70, lifts=LIFTS)
    week = WeekInfo(number=1, monday=MONDAY, phase="in-season", gym=2)
    choice = ChosenBand(quality=LADDERS[key], rung=rung, dose=Dose.FULL)
    return sum(line.sets for line in card(who, [choice], week, hold=hold).sections[0].lines)


def back(weeks):
    """Return what holds somebody so many whole weeks after four weeks away."""
    last = MONDAY - dt.timedelta(days=1)
    gone = AvailabilityEntry(
        athlete="Ada", status="away", first=last - dt.timedelta(days=27), last=last
    )
    return hold_for(AthleteHistory(entries=(gone,)), MONDAY + dt.timedelta(weeks=weeks))


@pytest.mark.parametrize(("week", "share"), list(enumerate([0.5, 0.7, 0.8, 0.9])))
@pytest.mark.parametrize("key", ["max_strength", "general_strength"])
def test_volume_after_inactivity_is_50_70_80_90_per_cent(key, week, share):
    # Caterisano et al. (2019), Strength and Conditioning Journal 41(3): 1-23: 50, 30, 20 and 10 %
    # less in the first four weeks after two weeks or more
    # of the band that they do: the bottom one in the first week
    whole = sets(key, back(8), rung=min(1, week))

    assert sets(key, back(week)) <= share * whole
    assert sets(key, back(week)) >= share * whole - 2


@pytest.mark.parametrize("rung", range(5))
def test_a_beginner_under_18_does_one_or_two_sets_at_60_per_cent_or_less(rung):
    # Lloyd et al. (2014), British Journal of Sports Medicine 48(7): 498-505; numbers from memory
    who = Athlete(name="Ada", group="squad", body_mass_kg=60, age=15, lifts=LIFTS)
    week = WeekInfo(number=1, monday=MONDAY, phase="in-season", gym=2)
    choice = ChosenBand(quality=LADDERS["max_strength"], rung=rung, dose=Dose.FULL)

    lines = card(who, [choice], week).sections[0].lines

    assert lines
    assert all(line.sets <= 2 and line.percent[1] <= 60 for line in lines)
    assert all(line.kg[1] <= 60 for line in lines)


def test_running_comes_back_step_by_step_to_full_speed():
    # Delphi consensus on hamstring injuries (British Journal of Sports Medicine 2023): running load
    # rises gradually to full sprinting
    who = Athlete(
        name="Ada", group="squad", body_mass_kg=70, splits={5: 1.12, 10: 1.93, 20: 3.33, 30: 4.65}
    )
    week = WeekInfo(number=1, monday=MONDAY, phase="in-season", field=2)
    choice = ChosenBand(quality=LADDERS["sprint"], rung=3, dose=Dose.FULL)
    fastest = []
    for stage in (2, 3, 4, 5):
        entry = AvailabilityEntry(
            athlete="Ada", status="limited", stage=stage, words="-", first=MONDAY
        )
        hold = hold_for(AthleteHistory(entries=(entry,)), MONDAY)
        (line,) = card(who, [choice], week, hold=hold).sections[0].lines
        fastest.append(float(line.how.split("-")[1].split()[0]))

    assert fastest == [70, 80, 90, 100]


# Place and day of four sessions, days from 0 for Monday.
FOUR = (("field", 0), ("gym", 1), ("field", 3), ("gym", 4))
STEPS = ["raise", "activate", "mobilise", "potentiate"]


def four_sessions(phase, programme):
    """Return the sessions of a computed card of four, a match eight days after Monday."""
    who = Athlete(name="Ada", group="squad", body_mass_kg=70, training_level="advanced")
    made = session_week(Dose.TOUCH, phase, match=8, programme=programme, places=FOUR)
    return card(who, choices(1, Dose.TOUCH), made).sessions


def standing(sessions, step):
    """Return the lines of one kind of standing work."""
    found = [line for each in sessions for block in each.blocks for line in block.lines]
    return [line for line in found if line.step == step]


@pytest.mark.parametrize(
    ("week", "times", "sets", "reps"),
    [(1, 1, 2, 5), (2, 2, 2, 6), (3, 2, 3, 6), (4, 2, 3, 8), (5, 2, 3, 10), (8, 2, 3, 10)],
)
def test_lowering_in_pre_season_rises_as_in_the_trial_with_amateurs(week, times, sets, reps):
    # van der Horst et al. (2015), as tabulated in a letter on van Dyk et al. (2019), British
    # Journal of Sports Medicine 53(21): 1362: 2 x 5 once; 2 x 6 twice; 3 x 6; 6, 7, 8; 8, 9, 10;
    # then 10, 9, 8 twice a week
    lines = standing(four_sessions("pre-season", week), "Hamstrings")

    assert len(lines) == times
    assert {(line.sets, line.reps[1]) for line in lines} == {(sets, reps)}


@pytest.mark.parametrize(("phase", "times"), [("pre-season", 3), ("in-season", 1)])
def test_adduction_comes_three_times_a_week_and_then_once_from_few_to_many(phase, times):
    # Haroy et al. (2019), British Journal of Sports Medicine 53(3): 150: three times a week in
    # pre-season, once in season, from 3-5 to 12-15 repetitions a side
    first, last = (standing(four_sessions(phase, week), "Adduction") for week in (1, 8))

    assert len(first) == len(last) == times
    assert first[0].reps == (3, 5)
    assert last[0].reps == (12, 15)
    assert last[0].each_side


def test_a_warm_up_raises_activates_mobilises_and_potentiates_in_10_to_15_minutes():
    # Jeffreys (2007), Professional Strength and Conditioning 6: 12-18 (from memory)
    for session in four_sessions("in-season", 10):
        block = session.blocks[0]
        own = [line.step for line in block.lines if line.step in STEPS]

        assert list(dict.fromkeys(own)) == STEPS
        assert 10 <= block.minutes <= 15


@pytest.mark.parametrize("rung", range(5))
def test_loads_rise_inside_a_block_by_no_more_than_a_tenth_and_the_next_begins_lighter(rung):
    # American College of Sports Medicine (2009), Medicine and Science in Sports and Exercise 41(3):
    # 687-708: rises of 2-10 % (from memory)
    lifts = {"squat": {"one_rm_kg": 140}}
    who = Athlete(name="Ada", group="squad", body_mass_kg=80, lifts=lifts)
    choice = ChosenBand(quality=LADDERS["max_strength"], rung=rung, dose=Dose.FULL)
    loads = []
    for at in range(1, 6):
        week = WeekInfo(number=at, monday=MONDAY, phase="pre-season", gym=2, block_week=at)
        loads.append(card(who, [choice], week).sections[0].lines[0].kg[1])

    rises = [100 * (after / before - 1) for before, after in pairwise(loads[:4])]
    assert all(1 <= rise <= 10 for rise in rises)
    assert loads[4] == loads[3]
