"""Computed cards against what was published on youth, return and top-ups."""

import datetime as dt

import pytest

from optimiser.athlete.availability import Entry, History
from optimiser.athlete.card import Choice, WeekInfo
from optimiser.athlete.cards import card
from optimiser.athlete.hold import hold_for
from optimiser.athlete.squad import Athlete
from optimiser.domain.quality import Dose
from optimiser.qualities import default_qualities

MONDAY = dt.date(2026, 10, 5)
LADDERS = {each.key: each for each in default_qualities()}
LIFTS = {key: {"one_rm_kg": 100} for key in ("squat", "bench_press", "front_squat")}


def sets(key, hold, rung=1):
    """Return all sets of a full dose on a card of one quality."""
    who = Athlete(name="Ada", group="squad", body_mass_kg=70, lifts=LIFTS)
    week = WeekInfo(number=1, monday=MONDAY, phase="in-season", gym=2)
    choice = Choice(quality=LADDERS[key], rung=rung, dose=Dose.FULL)
    return sum(line.sets for line in card(who, [choice], week, hold=hold).sections[0].lines)


def back(weeks):
    """Return what holds somebody so many whole weeks after four weeks away."""
    last = MONDAY - dt.timedelta(days=1)
    gone = Entry(athlete="Ada", status="away", first=last - dt.timedelta(days=27), last=last)
    return hold_for(History(entries=(gone,)), MONDAY + dt.timedelta(weeks=weeks))


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
    choice = Choice(quality=LADDERS["max_strength"], rung=rung, dose=Dose.FULL)

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
    choice = Choice(quality=LADDERS["sprint"], rung=3, dose=Dose.FULL)
    fastest = []
    for stage in (2, 3, 4, 5):
        entry = Entry(athlete="Ada", status="limited", stage=stage, words="-", first=MONDAY)
        hold = hold_for(History(entries=(entry,)), MONDAY)
        (line,) = card(who, [choice], week, hold=hold).sections[0].lines
        fastest.append(float(line.how.split("-")[1].split()[0]))

    assert fastest == [70, 80, 90, 100]
