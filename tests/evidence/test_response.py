"""Our impulse response, as shipped, with published constants passed in.

Morton, Fitz-Clarke and Banister 1990, "Modeling human performance in running", J Appl Physiol
69:1171-7, and Fitz-Clarke, Morton and Banister 1991, "Optimizing athletic performance by influence
curves", J Appl Physiol 71:1151-8: gains 1 and 2, 45 and 15 days, t_n about 16 and t_g about 40 days
(from memory). Other numbers are worked from these constants outside this program.
"""

import numpy as np
import pytest
from made_seasons import make_plan, make_quality, make_season
from two_component import TEACHING, Response

from optimiser.domain.quality import Dose
from optimiser.response.readiness import decay, kernel
from optimiser.review.score import quality_curve
from optimiser.setup.qualities import default_qualities

# Effect of a unit of load some whole weeks later.
INFLUENCE = {0: -1.0, 7: -0.398239, 14: -0.053849, 21: 0.133895, 28: 0.227474, 42: 0.271621}


def test_weekly_decay_of_the_published_constants():
    assert [decay(45, 1), decay(15, 1)] == pytest.approx([0.855940, 0.627089], abs=1e-6)


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


@pytest.mark.parametrize("days", INFLUENCE)
def test_the_kernel_has_the_worked_values(days):
    assert per_unit(teaching_season())[days // 7] == pytest.approx(INFLUENCE[days], abs=1e-6)


def test_load_harms_up_to_the_published_day_and_helps_most_near_the_published_one():
    curve = per_unit(teaching_season())

    # t_n 15.6 and t_g 40.3 days: between weeks 2 and 3, and nearest to week 6.
    assert curve[2] < 0 < curve[3]
    assert curve.argmax() == 6


# Clarke and Skiba 2013, "Rationale and resources for teaching the mathematical modeling of athletic
# training and performance", Adv Physiol Educ 37:134-52: a cyclist's fit, 0.18, 0.23, 36, 21; worked
# from it, t_n 12.35 and t_g 39.52 days.
def test_the_kernel_of_the_cyclist():
    quality = make_quality("sprint", "field", bands=2).model_copy(
        update={"tau_fitness": 36, "tau_fatigue": 21, "fatigue_ratio": 0.23 / 0.18}
    )
    season = make_season(30, qualities=[quality]).model_copy(update={"fatigue_scale": 1.0})
    curve = per_unit(season)

    assert curve[1] < 0 < curve[2]
    assert curve.argmax() == 6


def test_the_kernel_sums_inclusively():
    found = per_unit(teaching_season(250)).sum()

    # Weekly unit load, strict sums: 5.94153 - 3.36322 = 2.57832; the load of the day counts too.
    assert found == pytest.approx(2.57832 - 1, abs=2e-5)


def test_the_kernel_is_the_influence_curve_at_whole_weeks():
    found = per_unit(teaching_season())

    assert found == pytest.approx(TEACHING.influence(7 * np.arange(30)), abs=1e-12)


@pytest.mark.parametrize("quality", default_qualities(), ids=lambda quality: quality.key)
def test_the_kernel_of_every_default_quality_has_the_shape_of_its_constants(quality):
    season = make_season(20, qualities=[quality])
    band = quality.bands[-1]
    unit = Response(
        fitness_gain=band.gain,
        fatigue_gain=season.fatigue_scale * quality.fatigue_ratio * band.strain,
        tau_fitness=quality.tau_fitness,
        tau_fatigue=quality.tau_fatigue,
    )

    found = kernel(season).points[0][:, -1, Dose.FULL]

    assert found / found[0] == pytest.approx(
        unit.influence(7 * np.arange(20)) / unit.influence(0), rel=1e-9
    )


# Elloumi et al. 2012, "Monitoring training load and fatigue in rugby sevens players", Asian J
# Sports Med 3(3):175-84: six hard weeks lowered performance, two easy ones lifted it above the
# start.
def test_six_hard_weeks_lower_readiness_and_two_easy_ones_lift_it_above_the_start():
    season = teaching_season(70)
    doses = [2] * 60 + [3] * 6 + [1] * 2 + [2] * 2
    curve = quality_curve(season, make_plan(season, [0], [[1]], [doses]), 0)
    start, lowest, rested = curve[59], min(curve[60:66]), curve[67]

    assert lowest < start < rested


# Busso, Candau, Lacour 1994, "Fatigue and fitness modelled from the effects of training on
# performance", Eur J Appl Physiol 69:50-4 (not verified): a hammer thrower, about 60 and 13 days.
def test_a_thrower_answers_later_than_the_default_of_maximal_strength():
    usual = next(q for q in default_qualities() if q.key == "max_strength")
    thrower = usual.model_copy(update={"tau_fitness": 60, "tau_fatigue": 13})
    best = [
        kernel(make_season(20, qualities=[q])).points[0][:, -1, Dose.FULL].argmax()
        for q in (usual, thrower)
    ]

    assert best[0] <= best[1]
