"""Strength estimates and tables against published rows and worked values."""

import pytest

from optimiser.athlete.strength import (
    EQUATIONS,
    effort,
    one_rm,
    percent_for,
    reps_at,
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


def test_eleven_twelve_and_fifteen_follow_the_textbook():
    # NSCA Essentials of Strength Training and Conditioning (from memory); the stand-alone chart
    # says 70 % at 12.
    assert (percent_for(11), percent_for(12), percent_for(15)) == (70, 67, 65)


@pytest.mark.parametrize(
    ("percent", "reps"), [(87, 5), (80, 8), (75, 10), (70, 11), (100, 1), (65, 15)]
)
def test_repetitions_a_share_allows(percent, reps):
    # The same textbook row, read the other way.
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
