"""Strength estimates and tables against published rows and worked values."""

import pytest

from optimiser.athlete.power import BEST_LOAD, power_zone
from optimiser.athlete.prilepin import check
from optimiser.athlete.progression import STEP, rise_kg, two_for_two
from optimiser.athlete.strength import (
    EQUATIONS,
    effort,
    one_rm,
    percent_for,
    reps_at,
    reserve_at,
)

# 100 kg lifted r times, from the published equations (Epley, Brzycki, Lombardi, Mayhew, Wathen,
# O'Conner, Lander), worked by hand.
FROM_100 = {
    2: (106.667, 102.857, 107.177, 111.439, 105.146, 105.0, 104.213),
    3: (110.000, 105.882, 111.612, 113.990, 108.980, 107.5, 107.197),
    5: (116.667, 112.500, 117.462, 119.011, 116.583, 112.5, 113.709),
    8: (126.667, 124.138, 123.114, 126.286, 127.671, 120.0, 125.109),
    10: (133.333, 133.333, 125.893, 130.934, 134.747, 125.0, 134.070),
    12: (140.000, 144.000, 128.209, 135.398, 141.496, 130.0, 144.414),
}
# Load over its share from the repetition table, 100 kg lifted r times.
BY_TABLE = {1: 100, 2: 105.263, 3: 107.527, 5: 114.943, 8: 125, 10: 133.333, 12: 149.254}


@pytest.mark.parametrize("reps", FROM_100)
def test_the_seven_equations_for_100_kg(reps):
    found = [one_rm(100, reps, equation) for equation in EQUATIONS]

    assert found == pytest.approx(FROM_100[reps], abs=1e-3)


@pytest.mark.parametrize("equation", EQUATIONS)
def test_one_repetition_is_the_load_itself(equation):
    assert one_rm(142.5, 1, equation) == 142.5


@pytest.mark.parametrize("reps", BY_TABLE)
def test_the_table_turned_round_gives_a_1rm(reps):
    assert 100 / percent_for(reps) * 100 == pytest.approx(BY_TABLE[reps], abs=1e-3)


def test_epley_and_brzycki_cross_at_ten():
    # Algebra: 1 + 10/30 = 36/27.
    gaps = [one_rm(100, reps, "epley") - one_rm(100, reps, "brzycki") for reps in range(2, 16)]

    assert gaps[8] == pytest.approx(0, abs=1e-9)
    assert min(gaps[:8]) > 0 > max(gaps[9:])


def test_epley_table_of_most_repetitions():
    # Epley (1985), published derivation of the equation: per cent of the 1RM for 2 to 10.
    shares = [round(100 * 100 / one_rm(100, reps, "epley")) for reps in range(2, 11)]

    assert shares == [94, 91, 88, 86, 83, 81, 79, 77, 75]


@pytest.mark.parametrize(("five_rm", "one"), [(80, 91.156), (100, 113.770)])
def test_brzycki_lies_within_the_error_of_the_chest_press_regression(five_rm, one):
    # Reynolds, Gordon and Robergs (2006), Journal of Strength and Conditioning Research 20(3):
    # 584-592: chest press 1RM = 1.1307 x 5RM + 0.6999, standard error 2.98 kg.
    assert 1.1307 * five_rm + 0.6999 == pytest.approx(one, abs=1e-3)
    assert abs(one_rm(five_rm, 5, "brzycki") - one) < 2.98


def test_load_chart_row_of_200():
    # NSCA training-load chart (Baechle and Earle), 1 to 10 repetitions.
    row = [percent_for(reps) * 2 for reps in range(1, 11)]

    assert row == [200, 190, 186, 180, 174, 170, 166, 160, 154, 150]


def test_twelve_and_fifteen_follow_the_textbook():
    # NSCA Essentials of Strength Training and Conditioning (from memory); the stand-alone chart
    # says 70 % at 12.
    assert (percent_for(12), percent_for(15)) == (67, 65)


def test_between_the_rows_of_the_table():
    assert percent_for(11) == pytest.approx(71)
    assert percent_for(13.5) == pytest.approx(66)


@pytest.mark.parametrize(
    ("percent", "reps"), [(88, 4.667), (82, 7.333), (72, 10.75), (70, 11.25), (100, 1), (65, 15)]
)
def test_repetitions_a_share_allows(percent, reps):
    assert reps_at(percent) == pytest.approx(reps, abs=1e-3)


@pytest.mark.parametrize(
    ("reps", "in_reserve", "percent"), [(5, 2, 83), (3, 3, 85), (2, 2, 90), (1, 0, 100)]
)
def test_share_for_repetitions_and_reserve(reps, in_reserve, percent):
    # Zourdos et al. (2016), Journal of Strength and Conditioning Research 30(1); Helms et al.
    # (2016), Strength and Conditioning Journal 38(4): 42-49 (from memory).
    assert percent_for(reps, in_reserve) == percent


@pytest.mark.parametrize(("in_reserve", "rating"), [(0, 10), (1, 9), (2, 8), (3, 7), (0.5, 9.5)])
def test_rating_of_a_set_is_ten_less_the_reserve(in_reserve, rating):
    # Zourdos et al. (2016), as above (from memory).
    assert effort(in_reserve) == rating


@pytest.mark.parametrize(
    ("percent", "sets", "reps"), [(75, 6, 3), (85, 3, 5), (85, 5, 3), (65, 6, 4), (95, 7, 1)]
)
def test_prilepin_totals_at_the_optimum(percent, sets, reps):
    # Prilepin's table as reproduced in coaching texts: optimum 24, 18, 15, 7 lifts.
    assert check(percent, sets, reps).lifts == check(percent, sets, reps).zone.optimum


def test_prilepin_calls_twelve_lifts_at_90_too_many():
    found = check(90, 6, 2)

    assert (found.reps, found.total, found.optimal) == ("fits", "high", False)


def test_prilepin_calls_sixes_at_85_too_long():
    assert check(85, 4, 6).reps == "high"


def test_prilepin_calls_eighteen_lifts_at_75_optimal():
    assert check(75, 6, 3).optimal


@pytest.mark.parametrize(
    ("percent", "sets", "reps", "left"),
    [(75, 3, 6, 4), (80, 4, 4, 4), (85, 5, 3, 3), (90, 4, 2, 2), (93, 5, 1, 2)],
)
def test_default_heavy_bands_leave_their_reserve_and_fit_prilepin(percent, sets, reps, left):
    assert reserve_at(percent, reps) == pytest.approx(left)
    assert check(percent, sets, reps).total == "fits"


@pytest.mark.parametrize(
    ("extra", "add"), [((2, 2), True), ((2, 1), False), ((2,), False), ((2, 1, 2, 3), True)]
)
def test_two_for_two(extra, add):
    # NSCA Essentials of Strength Training and Conditioning (from memory).
    assert two_for_two(extra) is add


def test_rises_by_region_and_build():
    # NSCA Essentials of Strength Training and Conditioning (from memory), in kg.
    assert [rise_kg("upper", "smaller"), rise_kg("upper", "larger")] == [(1, 2), (2, 4)]
    assert [rise_kg("lower", "smaller"), rise_kg("lower", "larger")] == [(2, 4), (4, 7)]


def test_a_rise_is_two_to_ten_per_cent():
    # ACSM (2009), Medicine and Science in Sports and Exercise 41(3): 687-708.
    assert STEP == (2, 10)


@pytest.mark.parametrize(
    ("percent", "zone"), [(30, "light"), (30.1, "middle"), (69.9, "middle"), (70, "heavy")]
)
def test_power_zones(percent, zone):
    # Soriano et al. (2015), Sports Medicine 45(8): 1191-1205.
    assert power_zone(percent) == zone


def test_loads_of_highest_power_lie_in_their_zones():
    # Cormie et al. (2007), Medicine and Science in Sports and Exercise 39(2): 340-349; zones:
    # Soriano et al. (2015), as above.
    zones = {lift: power_zone(percent) for lift, percent in BEST_LOAD.items()}

    assert zones == {"jump_squat": "light", "squat": "middle", "power_clean": "heavy"}
