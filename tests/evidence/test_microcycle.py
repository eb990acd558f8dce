"""Days around matches against what is published about them."""

from itertools import pairwise

import pytest
from made_seasons import season_of_matches

from optimiser.days.day import season_days
from optimiser.days.labels import label
from optimiser.days.spacing_settings import DaySettings
from optimiser.days.week import WeekMaker
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose

USUAL = DaySettings()


def plan(made, dose, field=2, gym=1):
    """Return a plan with every quality on its fourth band, alike in every week."""
    weeks = len(made.weeks)
    return Plan(
        starts=(0,),
        rungs=((3,) * weeks,) * len(made.qualities),
        doses=((dose,) * weeks,) * len(made.qualities),
        field=(field,) * weeks,
        gym=(gym,) * weeks,
    )


def between(turnaround):
    return [label(day, turnaround - day) for day in range(1, turnaround)]


# Convention of the trade (no source): MD-n counts back from the match, MD+n forward from it.
@pytest.mark.parametrize(
    ("turnaround", "names"),
    [
        (3, "MD+1 MD-1"),
        (4, "MD+1 MD-2 MD-1"),
        (5, "MD+1 MD+2 MD-2 MD-1"),
        (6, "MD+1 MD+2 MD-3 MD-2 MD-1"),
        (7, "MD+1 MD+2 MD-4 MD-3 MD-2 MD-1"),
        (8, "MD+1 MD+2 MD-5 MD-4 MD-3 MD-2 MD-1"),
        (9, "MD+1 MD+2 MD-6 MD-5 MD-4 MD-3 MD-2 MD-1"),
    ],
)
def test_days_of_turnarounds_of_three_to_nine_days(turnaround, names):
    assert " ".join(between(turnaround)) == names


def test_a_day_between_two_matches_two_days_apart_looks_ahead():
    assert between(2) == ["MD-1"]


# Cross R. et al. 2019, EJSS 19(10):1287-96: coaches leave 48 h after a match. Silva J. et al. 2018,
# Sports Med 48:539-83, conclude that even 72 h are not enough to recover in full, so 48 h are the
# least and not a promise.
@pytest.mark.parametrize("first", range(2, 12))
@pytest.mark.parametrize("turnaround", range(1, 10))
def test_hard_leg_work_keeps_two_days_from_every_match(first, turnaround):
    made = season_of_matches(first, first + turnaround)
    hard = [day for days in season_days(made, USUAL) for day in days if day.hard]

    assert all(day.since is None or day.since >= 2 for day in hard)
    assert all(day.until is None or day.until >= 2 for day in hard)


# Buchheit et al. 2023, Biol Sport 40(4):1057-67: no hamstring injury in matches two days after a
# run above 95 % of top speed; turnarounds of 3 to 8 days were looked at.
@pytest.mark.parametrize("turnaround", [5, 6, 7, 8])
def test_a_touch_of_top_speed_comes_two_days_before_a_match(turnaround):
    made = season_of_matches(11 - turnaround, 11)

    assert sprints_before(made, plan(made, Dose.TOUCH), 11) == [2]


@pytest.mark.parametrize(("turnaround", "field"), [(5, 1), (6, 2), (7, 2), (8, 2)])
def test_more_than_a_touch_of_it_ends_two_or_three_days_before_one(turnaround, field):
    made = season_of_matches(11 - turnaround, 11)

    assert sprints_before(made, plan(made, Dose.REDUCED, field), 11)[-1] in (2, 3)


def sprints_before(made, chosen, match):
    """Return the days from each sprint session of the second week to a match."""
    days = WeekMaker(made).week(chosen, 1).days
    return [
        match - 7 - number
        for number, day in enumerate(days)
        if any("sprint" in _keys(session) for session in day.sessions)
    ]


# Oliva-Lozano et al. 2022, Biol Sport 39(2):397-406: most load on MD-4 and MD-3, least on MD-1, the
# match the peak. Silva H. et al. 2023, SCJ 45(5):568-77: MD-1 least demanding of 16 studies.
@pytest.mark.parametrize("dose", [Dose.TOUCH, Dose.REDUCED])
def test_the_eve_of_a_match_is_the_lightest_training_day_and_the_middle_the_hardest(dose):
    made = season_of_matches(5, 12, 19)
    made = made.model_copy(
        update={"weeks": tuple(w.model_copy(update={"practice_load": 750}) for w in made.weeks)}
    )
    load = {day.label: day.load for day in WeekMaker(made).week(plan(made, dose), 1).days}

    assert load["MD-1"] == 0
    assert max(load, key=lambda name: 0 if name == "MD" else load[name]) in ("MD-4", "MD-3")


# NSCA guideline sheets: jumps not on consecutive days, 48-72 h apart.
def test_jumps_are_never_on_consecutive_days():
    made = season_of_matches(5, 19)
    days = WeekMaker(made).week(plan(made, Dose.FULL, field=3), 1).days
    jumps = [n for n, day in enumerate(days) for s in day.sessions if "plyometrics" in _keys(s)]

    assert jumps
    assert all(after - before >= 2 for before, after in pairwise(jumps))


# Haugen et al. 2019, Sports Med Open 5:44, Table 2: 48 h from hard sprint work, resisted or not, to
# the next hard session.
def test_hard_sessions_of_the_field_are_two_days_apart():
    made = season_of_matches(5, 19)
    days = WeekMaker(made).week(plan(made, Dose.FULL, field=3, gym=2), 1).days
    hard = [number for number, day in enumerate(days) if any(s.hard for s in day.sessions)]

    assert len(hard) == 3
    assert all(after - before >= 2 for before, after in pairwise(hard))


# Robineau et al. 2016, JSCR 30(3):672-83: strength gains blunted without a gap, 6 h are the least
# and 24 h are better.
def test_field_and_gym_share_no_day_where_there_are_days_enough():
    made = season_of_matches(5, 12, 19)
    days = WeekMaker(made).week(plan(made, Dose.TOUCH, field=1, gym=1), 1).days

    assert max(len(day.sessions) for day in days) == 1


def _keys(session):
    return {work.quality for work in session.work}
