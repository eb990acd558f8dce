"""Logged sets: what they tell of the 1RM, with its error, and what they do not tell."""

import datetime as dt

import pytest
from pydantic import ValidationError

from optimiser.athlete.card import ChosenBand, WeekInfo
from optimiser.athlete.cards import card
from optimiser.athlete.library import default_library
from optimiser.athlete.logged import estimate_1rm, with_logged
from optimiser.athlete.squad import Athlete
from optimiser.domain.quality import Dose
from optimiser.progress.done_session import DoneSession
from optimiser.progress.recorded import athlete_records, squad_records
from optimiser.setup.qualities import default_qualities

MONDAY = dt.date(2026, 10, 5)
LAST_WEEK = dt.date(2026, 9, 29)
KEYS = default_library().exercises
STRENGTH = next(each for each in default_qualities() if each.key == "max_strength")


def logged(kg, reps, left=0.0, day=LAST_WEEK, **told):
    told = {"who": "Ada", "what": "max_strength", "exercise": "squat", **told}
    return DoneSession(date=day, kg=kg, reps=reps, left=left, **told)


def ada(**lift):
    lifts = {"squat": lift} if lift else {}
    return Athlete(name="Ada", group="squad", body_mass_kg=70, lifts=lifts)


def squat(athlete, *sets):
    return with_logged(athlete, sets, KEYS, MONDAY).lifts.get("squat")


def test_an_estimate_is_the_mean_of_two_equations():
    # Epley (1985) 116.67 and Brzycki (1993) 112.5 for five repetitions with 100 kg
    assert estimate_1rm(logged(100, 5)) == pytest.approx((116.667 + 112.5) / 2, abs=1e-3)
    assert estimate_1rm(logged(100, 3, left=2)) == estimate_1rm(logged(100, 5))


def test_the_best_set_of_a_day_is_the_days():
    found = squat(ada(), logged(80, 5), logged(100, 5), logged(60, 5))

    assert found.one_rm_kg == pytest.approx(114.6)
    assert found.error == pytest.approx(6.0)


def test_sets_and_test_make_one_estimate_between_them_with_less_error_than_either():
    tested = {"one_rm_kg": 100, "tested": dt.date(2026, 9, 1)}

    found = squat(ada(**tested), logged(100, 5))

    assert 100 < found.one_rm_kg < 107
    assert 3 < found.error < 5
    # a test counts for less as it grows old
    old = squat(ada(**{**tested, "tested": dt.date(2026, 5, 1)}), logged(100, 5))
    assert old.one_rm_kg > found.one_rm_kg


def test_many_sets_do_not_talk_their_shared_error_away():
    days = [LAST_WEEK - dt.timedelta(days=day) for day in range(20)]

    assert squat(ada(), *(logged(100, 5, day=day) for day in days)).error == pytest.approx(6.0)


@pytest.mark.parametrize(
    "told",
    [
        logged(100, 5, left=None),
        logged(60, 8, left=5),
        logged(60, 5, left=8),
        logged(100, 5, day=dt.date(2026, 7, 1)),
        logged(100, 5, day=MONDAY),
        logged(100, 5, who="Bea"),
        logged(60, 3, exercise="power_clean", what="power"),
    ],
)
def test_what_tells_too_little_changes_nothing(told):
    who = ada(one_rm_kg=100, tested=dt.date(2026, 6, 1))

    assert with_logged(who, [told], KEYS, MONDAY) == who


def test_sets_before_the_last_test_are_in_it_already():
    who = ada(one_rm_kg=100, tested=dt.date(2026, 10, 1))

    assert with_logged(who, [logged(100, 5)], KEYS, MONDAY) == who


def test_a_slip_of_the_pen_is_said_and_not_used():
    choice = ChosenBand(quality=STRENGTH, rung=0, dose=Dose.FULL)
    who = with_logged(
        ada(one_rm_kg=100, tested=dt.date(2026, 6, 1)), [logged(180, 5)], KEYS, MONDAY
    )
    week = WeekInfo(number=9, monday=MONDAY, phase="in-season", field=2, gym=2)

    made = card(who, [choice], week)

    assert who.lifts["squat"].one_rm_kg == 100
    assert any("180 kg x 5 with 0 left" in note and "not used" in note for note in made.notes)


def test_the_card_lifts_what_the_estimate_says_and_names_its_error():
    choice = ChosenBand(quality=STRENGTH, rung=0, dose=Dose.FULL)
    week = WeekInfo(number=9, monday=MONDAY, phase="in-season", field=2, gym=2)

    line = card(with_logged(ada(), [logged(100, 5)], KEYS, MONDAY), [choice], week).sections[0]

    # 75 % of 114.6 kg
    assert line.lines[0].kg == (85, 85)
    assert "1RM about 115 kg, ±6 %, sets up to 2026-09-29" in line.lines[0].how


@pytest.mark.parametrize(
    ("told", "words"),
    [
        ({"kg": 100}, "exercise must be given with kg"),
        ({"exercise": "squat", "kg": 100}, "reps must be given"),
        ({"exercise": "squat", "kg": 100, "reps": 5}, "who must be an athlete"),
    ],
)
def test_half_a_set_is_refused(told, words):
    with pytest.raises(ValidationError, match=words):
        DoneSession(date=LAST_WEEK, what="max_strength", sets=3, **told)


def test_sets_logged_lift_by_lift_are_one_session_and_details_of_one_that_stands():
    lifts = [logged(100, 5, sets=3), logged(60, 8, sets=2, exercise="bench_press"), logged(50, 9)]
    whole = DoneSession(date=LAST_WEEK, who="Ada", what="max_strength", minutes=30, rpe=7)

    (counted,) = athlete_records(lifts, "Ada")
    assert (counted.sets, counted.exercise) == (6, None)
    assert athlete_records([*lifts, whole], "Ada") == [whole]
    (squad,) = squad_records(lifts)
    assert squad.sets == 6
