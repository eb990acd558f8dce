"""Two-component impulse response against published constants and worked values."""

from dataclasses import replace
from math import exp, log

import numpy as np
import pytest

from optimiser.domain.quality import Dose
from optimiser.qualities import default_qualities
from optimiser.readiness import decay, kernel
from optimiser.response import TEACHING, Response, rising_influence
from optimiser.testing import make_quality, make_season

# Morton, Fitz-Clarke and Banister 1990, J Appl Physiol 69:1171-7, and Fitz-Clarke, Morton and
# Banister 1991, J Appl Physiol 71:1151-8: gains 1 and 2, 45 and 15 days, t_n about 16 and t_g about
# 40 days (from memory). All other numbers of this file are worked from the published constants.
INFLUENCE = {
    0: -1.0,
    7: -0.398239,
    14: -0.053849,
    16: 0.012476,
    21: 0.133895,
    28: 0.227474,
    42: 0.271621,
    60: 0.226966,
    90: 0.130378,
}
LOADS = (100, 0, 80, 0, 120, 0, 0)
PERFORMANCE = {
    1: -89.29911,
    3: -141.63474,
    7: -167.11627,
    14: -43.13488,
    28: 61.31017,
    42: 81.45467,
}


def test_published_days_of_no_and_of_most_effect():
    assert TEACHING.neutral_day() == pytest.approx(15.5958, abs=1e-4)
    assert TEACHING.best_day() == pytest.approx(40.3146, abs=1e-4)


# Clarke and Skiba 2013, Adv Physiol Educ 37:134-52: a cyclist's fit.
def test_days_of_the_cyclist():
    cyclist = Response(fitness_gain=0.18, fatigue_gain=0.23, tau_fitness=36, tau_fatigue=21)

    assert cyclist.neutral_day() == pytest.approx(12.354, abs=1e-3)
    assert cyclist.best_day() == pytest.approx(39.520, abs=1e-3)


@pytest.mark.parametrize("days", INFLUENCE)
def test_influence_of_a_unit_of_load(days):
    assert TEACHING.influence(days) == pytest.approx(INFLUENCE[days], abs=1e-6)


def test_influence_turns_and_peaks_where_the_formulas_say():
    curve = TEACHING.influence(np.arange(120))

    assert curve[15] < 0 < curve[16]
    assert curve.argmax() == 40
    assert TEACHING.influence(TEACHING.neutral_day()) == pytest.approx(0, abs=1e-12)
    assert TEACHING.influence(TEACHING.best_day()) == pytest.approx(0.272166, abs=1e-6)


def test_half_lives_and_weekly_decay():
    assert [45 * log(2), 15 * log(2)] == pytest.approx([31.19, 10.40], abs=5e-3)
    assert [decay(45, 1), decay(15, 1)] == pytest.approx([0.855940, 0.627089], abs=1e-6)


@pytest.mark.parametrize(
    ("every", "inclusive", "fitness", "fatigue", "net"),
    [
        (1, False, 44.50185, 29.01112, 15.49074),
        (1, True, 45.50185, 31.01112, 14.49074),
        (7, False, 5.94153, 3.36322, 2.57832),
    ],
)
def test_steady_states(every, inclusive, fitness, fatigue, net):
    found = TEACHING.steady(every, inclusive=inclusive)

    assert found == pytest.approx((fitness, fatigue), abs=2e-5)
    assert found[0] - found[1] == pytest.approx(net, abs=2e-5)


def test_a_long_run_of_equal_days_reaches_the_steady_state():
    found = TEACHING.components([1] * 2000, 2000)

    assert found == pytest.approx(TEACHING.steady(), abs=1e-9)


@pytest.mark.parametrize("day", PERFORMANCE)
def test_performance_after_a_week_of_three_loads(day):
    assert TEACHING.performance(LOADS, day) == pytest.approx(PERFORMANCE[day], abs=1e-4)


def test_fitness_and_fatigue_after_that_week():
    fitness, fatigue = TEACHING.components(LOADS, 7)

    assert fitness == pytest.approx(269.44194, abs=1e-4)
    assert fatigue / TEACHING.fatigue_gain == pytest.approx(218.27910, abs=1e-4)


def test_the_two_conventions_differ_by_the_load_of_the_day():
    gaps = [
        TEACHING.performance(LOADS, day, inclusive=True) - TEACHING.performance(LOADS, day)
        for day in range(7)
    ]

    assert gaps == pytest.approx([-load for load in LOADS], abs=1e-9)


def test_what_two_series_do_adds_up():
    rng = np.random.default_rng(0)
    one, two = rng.integers(0, 500, (2, 60))

    both = TEACHING.performance(list(one + two), 70)

    assert both == pytest.approx(
        TEACHING.performance(list(one), 70) + TEACHING.performance(list(two), 70)
    )


# Worked from the teaching constants: 15.09 days with daily sums, whatever the depth.
@pytest.mark.parametrize("fraction", [0.6, 0.5, 0.4, 0.0])
def test_the_best_step_taper_lasts_fifteen_days(fraction):
    whole = max(range(1, 60), key=lambda days: TEACHING.after_step(fraction, days))

    assert TEACHING.best_step() == pytest.approx(15.09, abs=5e-3)
    assert whole == 15


@pytest.mark.parametrize(
    ("days", "ratio"), [(7, 1.1423), (14, 1.1841), (15, 1.1847), (21, 1.1698), (28, 1.1262)]
)
def test_what_a_step_to_half_gives(days, ratio):
    usual = TEACHING.after_step(1, days)

    assert TEACHING.after_step(0.5, days) / usual == pytest.approx(ratio, abs=5e-5)


def test_the_gain_of_a_step_follows_its_depth():
    usual = TEACHING.after_step(1, 15)
    gains = [TEACHING.after_step(fraction, 15) - usual for fraction in (0.4, 0.6)]

    assert gains[0] / gains[1] == pytest.approx(1.5, abs=1e-9)


# Mujika et al. 1996, MSSE 28(2):251-8: what a taper gains comes from less fatigue.
def test_in_a_taper_fatigue_falls_by_a_larger_share_than_fitness():
    before = TEACHING.components([1] * 300, 300)
    after = TEACHING.components([1] * 300 + [0.5] * 21, 321)

    assert after[1] / before[1] < 0.7 < after[0] / before[0]


# Elloumi et al. 2012, Asian J Sports Med 3(3):175-84: the pattern found in rugby sevens players.
def test_six_hard_weeks_lower_performance_and_two_easy_ones_lift_it_above_the_start():
    loads = [1] * 300 + [1.5] * 42 + [0.4] * 14
    start, tired, rested = (TEACHING.performance(loads, day) for day in (300, 310, 356))

    assert tired < start < rested


# Calvert et al. 1976, IEEE Trans SMC 6:94-102: 50, 5 and 15 days (from memory), gains 1 and 2.
def test_the_first_human_model():
    assert rising_influence([0, 14, 28]) == pytest.approx([-2, -0.09151, 0.25823], abs=1e-5)


# Busso, Candau, Lacour 1994, Eur J Appl Physiol 69:50-4: a hammer thrower, about 60 and 13 days.
def test_constants_of_a_strength_and_power_athlete_are_taken():
    quality = make_quality("throw", "gym").model_dump() | {"tau_fitness": 60, "tau_fatigue": 13}

    assert type(make_quality("throw", "gym")).model_validate(quality).tau_fatigue == 13


@pytest.mark.parametrize(
    "change", [{"fitness_gain": 0}, {"fatigue_gain": -1}, {"tau_fatigue": 45}, {"tau_fatigue": 0}]
)
def test_constants_that_do_not_fit_are_refused(change):
    with pytest.raises(ValueError, match="must be above 0"):
        replace(TEACHING, **change)


# --- the kernel of the optimiser ----------------------------------------------------------


def teaching_season(weeks=30):
    """Return a season of one quality that answers by the teaching constants."""
    quality = make_quality("sprint", "field", bands=2).model_copy(
        update={"tau_fitness": 45, "tau_fatigue": 15, "fatigue_ratio": 2.0}
    )
    return make_season(weeks, qualities=[quality]).model_copy(update={"fatigue_scale": 1.0})


def per_unit(season):
    """Return what one full week does week by week; on its own day it does 1 - 2 = -1."""
    made = kernel(season).points[0][:, -1, Dose.FULL]
    return made / -made[0]


def test_the_kernel_is_the_influence_curve_at_whole_weeks():
    found = per_unit(teaching_season())

    assert found == pytest.approx(TEACHING.influence(7 * np.arange(30)), abs=1e-12)


@pytest.mark.parametrize("days", [day for day in INFLUENCE if day % 7 == 0])
def test_the_kernel_has_the_worked_values(days):
    assert per_unit(teaching_season())[days // 7] == pytest.approx(INFLUENCE[days], abs=1e-6)


def test_the_kernel_sums_inclusively():
    strict = TEACHING.steady(7)
    found = per_unit(teaching_season(250)).sum()

    assert found == pytest.approx(strict[0] - strict[1] - 1, abs=1e-6)
    assert strict[0] - strict[1] == pytest.approx(2.57832, abs=2e-5)


@pytest.mark.parametrize("quality", default_qualities(), ids=lambda quality: quality.key)
def test_the_kernel_of_every_default_quality_has_the_shape_of_its_constants(quality):
    season = make_season(20, qualities=[quality]).model_copy(update={"fatigue_scale": 1.0})
    band = quality.bands[-1]
    unit = Response(
        fitness_gain=band.gain,
        fatigue_gain=quality.fatigue_ratio * band.strain,
        tau_fitness=quality.tau_fitness,
        tau_fatigue=quality.tau_fatigue,
    )

    found = kernel(season).points[0][:, -1, Dose.FULL]

    assert found / found[0] == pytest.approx(
        unit.influence(7 * np.arange(20)) / unit.influence(0), rel=1e-9
    )


# --- default constants: our choice, in the order of published residuals -------------------

# Issurin 2008 (residuals: strength 30, top speed 5 days) gives the order; no study the numbers.
DEFAULTS = {
    "general_strength": (6.04, 25.38, 4.3632),
    "max_strength": (9.62, 31.25, 3.6688),
    "power": (6.64, 22.53, 2.6448),
    "plyometrics": (6.58, 20.61, 2.2341),
    "resisted_sprint": (5.94, 19.97, 2.3055),
    "sprint": (5.81, 17.99, 1.9053),
}
LASTING = (
    "max_strength", "general_strength", "power", "plyometrics", "resisted_sprint", "sprint",
)  # fmt: skip


def response_of(key):
    quality = next(quality for quality in default_qualities() if quality.key == key)
    return Response(1, quality.fatigue_ratio, quality.tau_fitness, quality.tau_fatigue)


@pytest.mark.parametrize("key", DEFAULTS)
def test_days_and_steady_states_of_the_default_constants(key):
    response = response_of(key)
    fitness, fatigue = response.steady(7)

    assert response.neutral_day() == pytest.approx(DEFAULTS[key][0], abs=0.01)
    assert response.best_day() == pytest.approx(DEFAULTS[key][1], abs=0.01)
    assert fitness - fatigue == pytest.approx(DEFAULTS[key][2], abs=1e-3)


def test_qualities_peak_in_the_order_in_which_they_last():
    # From memory of the same source: speed first, then jumps and power, strength last.
    days = [response_of(key).best_day() for key in reversed(LASTING)]

    assert days == sorted(days)


def test_what_is_left_after_a_week_follows_the_constants():
    kept = {key: exp(-7 / response_of(key).tau_fitness) for key in DEFAULTS}

    assert kept["sprint"] == min(kept.values()) == pytest.approx(0.7470, abs=1e-4)
    assert kept["max_strength"] == max(kept.values()) == pytest.approx(0.8559, abs=1e-4)
