"""Session-RPE load, monotony, strain and running means against published and worked values.

Foster et al. (2001), Journal of Strength and Conditioning Research 15(1): 109-115.
Foster (1998), Medicine and Science in Sports and Exercise 30(7): 1164-1168.
Williams et al. (2017), British Journal of Sports Medicine 51(3): 209-210.
"""

from math import log
from statistics import fmean, pstdev

import pytest

from optimiser.athlete.load import ewma, session_load, week_load

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


def test_the_population_deviation_would_give_more_as_the_docstring_says():
    monotony = week_load(WEEK).monotony

    assert fmean(WEEK) / pstdev(WEEK) == pytest.approx(1.1859, abs=1e-4)
    assert fmean(WEEK) / pstdev(WEEK) / monotony == pytest.approx(1.08, abs=1e-3)


def test_a_flatter_week_of_the_same_total_is_more_strain():
    flat = week_load(FLAT)

    assert flat.total == week_load(WEEK).total
    assert flat.monotony == pytest.approx(2.0561, abs=1e-4)
    assert flat.strain == pytest.approx(4574.82, abs=1e-2)
    assert flat.strain > week_load(WEEK).strain


@pytest.mark.parametrize("load", [0, 300])
def test_equal_days_have_no_monotony(load):
    found = week_load([load] * 7)

    assert (found.total, found.monotony, found.strain) == (7 * load, None, None)


@pytest.mark.parametrize(("days", "share", "half_life"), [(7, 0.25, 2.4094), (28, 2 / 29, 9.6999)])
def test_share_and_half_life_of_the_running_mean(days, share, half_life):
    # Williams et al. (2017): share 2 / (N + 1).
    found = ewma([0, 1], days)[1]

    assert found == pytest.approx(share, abs=1e-12)
    assert log(0.5) / log(1 - found) == pytest.approx(half_life, abs=1e-4)


def test_running_mean_of_the_hand_made_week():
    week = [350, 391.25, 293.4375, 340.0781, 285.0586, 403.7939, 302.8455]

    assert ewma(WEEK, 7) == pytest.approx(week, abs=1e-4)
    assert ewma(WEEK, 28)[-1] == pytest.approx(335.4975, abs=1e-4)


def test_three_even_weeks_then_a_double_one():
    days = [100] * 21 + [200] * 7

    assert ewma(days, 7)[-1] == pytest.approx(186.6516, abs=1e-4)
    assert ewma(days, 28)[-1] == pytest.approx(139.3598, abs=1e-4)


def test_the_same_week_loaded_later_raises_the_short_mean_over_the_long():
    # Williams et al. (2017): same rolling ratio, different running-mean ratio.
    before = [500] * 21
    early, late = [1000, 1000, 500, 500, 500, 0, 0], [0, 0, 500, 500, 500, 1000, 1000]

    ratios = [ewma(before + week, 7)[-1] / ewma(before + week, 28)[-1] for week in (early, late)]
    assert ratios[0] < 1 < ratios[1]
