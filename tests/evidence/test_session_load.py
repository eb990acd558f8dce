"""Session-RPE load, monotony and strain against published and worked values.

Foster et al. (2001), Journal of Strength and Conditioning Research 15(1): 109-115.
Foster (1998), Medicine and Science in Sports and Exercise 30(7): 1164-1168.
"""

import pytest
from session_rpe import session_load

from optimiser.athlete.week_load import week_load

# A week made by hand, not from a paper: minutes and ratings of each day's sessions.
SESSIONS = ([(5, 70)], [(7, 45), (4, 50)], [], [(6, 80)], [(3, 40)], [(8, 95)], [])
WEEK = [sum(session_load(rpe, minutes) for rpe, minutes in day) for day in SESSIONS]
FLAT = [400, 400, 400, 400, 400, 225, 0]


def test_an_hour_rated_seven_is_420_units():
    # Foster et al. (2001): rating x minutes.
    assert session_load(7, 60) == 420


def test_hand_made_week_gives_the_worked_monotony_and_strain():
    found = week_load(WEEK)

    assert WEEK == [350, 515, 0, 480, 120, 760, 0]
    assert found.total == 2225
    assert found.mean == pytest.approx(317.857, abs=1e-3)
    assert found.monotony == pytest.approx(1.0979, abs=1e-4)
    assert found.strain == pytest.approx(2442.87, abs=1e-2)


def test_a_flatter_week_of_the_same_total_is_more_strain():
    flat = week_load(FLAT)

    assert flat.total == week_load(WEEK).total
    assert flat.monotony == pytest.approx(2.0561, abs=1e-4)
    assert flat.strain == pytest.approx(4574.82, abs=1e-2)
    assert flat.strain > week_load(WEEK).strain
