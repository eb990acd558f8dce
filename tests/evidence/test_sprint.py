"""Sprint curve and force-velocity line against published splits and worked values."""

import pytest
from sprint_profile import air_drag, force_velocity, fraction_at

from optimiser.athlete.sprint import distance_to, fit_splits, time_at

MARKS = [10, 20, 30, 40]
# Haugen, Breitschaedel and Seiler (2019), PLoS ONE 14(7): e0215551, Table 1: mean times in s at
# 10, 20, 30 and 40 m of national-team athletes.
TEAMS = {
    "bandy men": [2.09, 3.39, 4.60, 5.80],
    "bandy women": [2.28, 3.76, 5.18, 6.63],
    "sprint men": [1.90, 3.05, 4.09, 5.13],
    "basketball men": [2.06, 3.36, 4.55, 5.74],
    "alpine men": [2.04, 3.30, 4.48, 5.64],
    "sprint women": [2.00, 3.24, 4.39, 5.51],
    "throws men": [2.03, 3.30, 4.45, 5.58],
    "jumps men": [1.97, 3.16, 4.23, 5.28],
}
# Fits of the same times made with another least-squares routine: top speed, time constant, rms.
FITS = {
    "bandy men": (8.406, 1.046, 0.0038),
    "bandy women": (7.031, 0.932, 0.0097),
    "sprint men": (9.826, 1.066, 0.0066),
    "basketball men": (8.479, 1.028, None),
    "alpine men": (8.671, 1.033, 0.0024),
}
# Benton (2001) cited in Young et al. (2018), Sports 6(3): 66: 97.5 % of top speed at 26.6 m.
BENTON = 26.6 / distance_to(0.975, 1, 1)


@pytest.mark.parametrize(
    ("fraction", "metres"),
    [(0.9, 1.402585), (0.95, 2.045732), (0.975, 2.713879), (0.99, 3.615170)],
)
def test_distance_to_a_share_of_top_speed_in_units_of_vmax_tau(fraction, metres):
    assert distance_to(fraction, 1, 1) == pytest.approx(metres, abs=1e-6)


def test_semi_elite_footballers_reach_90_and_95_per_cent():
    assert pytest.approx(9.8015, abs=1e-4) == BENTON
    assert distance_to(0.90, BENTON, 1) == pytest.approx(13.75, abs=0.005)
    assert distance_to(0.95, BENTON, 1) == pytest.approx(20.05, abs=0.005)


@pytest.mark.parametrize(
    ("metres", "percent"),
    [
        (5, 70.3),
        (8, 80.2),
        (10, 84.5),
        (12, 87.8),
        (15, 91.3),
        (18, 93.8),
        (20, 95.0),
        (22, 95.9),
        (25, 97.0),
        (30, 98.3),
        (40, 99.4),
    ],
)
def test_share_of_top_speed_by_distance(metres, percent):
    # The curve through Benton's point.
    assert 100 * fraction_at(metres, BENTON, 1) == pytest.approx(percent, abs=0.06)


def test_fast_footballers_reach_95_and_97_5_per_cent():
    # Clark et al. (2019), Journal of Strength and Conditioning Research 33(6): 1542-1550: tau
    # about 0.77 s in fast and slow alike.
    assert distance_to(0.95, 9.0, 0.77) == pytest.approx(14.18, abs=0.005)
    assert distance_to(0.975, 9.0, 0.77) == pytest.approx(18.81, abs=0.005)


@pytest.mark.parametrize("team", TEAMS)
def test_the_curve_of_every_national_team_is_close_and_agrees_with_its_last_ten_metres(team):
    times = TEAMS[team]

    found = fit_splits(MARKS, times)

    # Times are printed to 0.01 s; those of the throwers fit worst.
    assert found.rms < 0.012
    assert found.vmax == pytest.approx(10 / (times[-1] - times[-2]), rel=0.025)


@pytest.mark.parametrize("team", FITS)
def test_fits_of_national_teams(team):
    vmax, tau, rms = FITS[team]

    found = fit_splits(MARKS, TEAMS[team])

    assert (found.vmax, found.tau) == pytest.approx((vmax, tau), abs=6e-4)
    assert found.rms < 0.01
    assert rms is None or found.rms == pytest.approx(rms, abs=6e-5)


def test_bandy_men_last_ten_metres_first_acceleration_and_power():
    found = fit_splits(MARKS, TEAMS["bandy men"])

    assert found.vmax == pytest.approx(10 / (5.80 - 4.60), rel=0.025)
    assert found.vmax / found.tau == pytest.approx(8.037, abs=1e-3)
    assert force_velocity(found.vmax, found.tau, 1).power == pytest.approx(16.89, abs=5e-3)


def test_bandy_men_with_a_free_start():
    # Vescovi and Jovanovic (2021), Frontiers in Sports and Active Living 3: 629694: why t0.
    found = fit_splits(MARKS, TEAMS["bandy men"], free_start=True)

    assert (found.vmax, found.tau, found.t0) == pytest.approx((8.453, 1.115, -0.043), abs=6e-4)


def test_times_of_a_curve_and_back():
    metres = [5, 10, 15, 20, 30, 40]

    times = time_at(metres, 8.5, 1.1)
    found = fit_splits(metres, times)

    assert times == pytest.approx([1.3723, 2.1158, 2.7766, 3.4031, 4.6128, 5.8002], abs=1e-4)
    assert (found.vmax, found.tau) == pytest.approx((8.5, 1.1), abs=1e-4)


def test_air_drag():
    # Arsac and Locatelli (2002), Journal of Applied Physiology 92(5): 1781-1788 (from memory).
    drag = air_drag(1.80, 80, celsius=15, torr=760)

    assert drag == pytest.approx(0.29294, abs=1e-5)
    assert drag * 8.5**2 == pytest.approx(21.17, abs=0.01)


def test_force_velocity_line_with_and_without_drag():
    # The spread of 0.5 % is the choice of the stretch the line is fitted over.
    drag = force_velocity(8.5, 1.1, 80, air_drag(1.80, 80))
    free = force_velocity(8.5, 1.1, 80)

    assert (drag.f0, drag.v0, drag.power) == pytest.approx((612.1, 8.790, 1345), rel=0.005)
    assert (free.f0 / 80, free.v0, free.power / 80) == pytest.approx((7.727, 8.5, 16.42), abs=5e-3)


def test_group_means_of_sprinters_agree_with_power_as_a_quarter_of_f0_v0():
    # Samozino et al. (2016), Scandinavian Journal of Medicine and Science in Sports 26: 648-658:
    # 638 N, 10.5 m/s and 1680 W. A curve with that force and speed, for a mass of 80 kg.
    found = force_velocity(vmax=10.5, tau=80 * 10.5 / 638, mass_kg=80)

    assert found.f0 == pytest.approx(638)
    assert found.power == pytest.approx(1674.75)
    assert found.power == pytest.approx(1680, rel=0.004)
