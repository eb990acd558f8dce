"""Least exposures and light doses against studies of what keeps a quality."""

import pytest

from constraints.exposure import Exposure
from optimiser.domain.quality import Dose
from optimiser.qualities import default_qualities
from optimiser.readiness import decay, gains
from optimiser.testing import make_plan, make_season

RULE = Exposure()
QUALITIES = {quality.key: quality for quality in default_qualities()}


def breaches(key, trained):
    """Return the weeks (from 0) in which the rule misses ``key``, trained as ``trained`` says."""
    season = make_season(len(trained), qualities=[QUALITIES[key]])
    plan = make_plan(season, [0, 4], [[2, 2]], [trained])
    return [breach.week for breach in RULE.audit(plan, season)]


# Ronnestad, Nymark, Raastad 2011, "Effects of in-season strength maintenance training frequency in
# professional soccer players", JSCR 25(10):2653-60: one session a week kept strength, one every
# other week lost it.
def test_strength_once_a_week_is_enough_and_every_other_week_is_not():
    assert breaches("max_strength", [1] * 8) == []
    assert breaches("max_strength", [1, 0] * 4) == [1, 3, 5, 7]


# Issurin 2008, J Sports Med Phys Fitness 48:65-75: residuals of top speed 5 +- 3 days, of maximal
# strength 30 +- 5 days.
def test_top_speed_may_rest_for_the_shortest_time():
    gaps = {key: RULE.gap_weeks[key] for key in QUALITIES}

    assert gaps["sprint"] == min(gaps.values()) == 1
    assert gaps["sprint"] <= gaps["plyometrics"] <= gaps["general_strength"]
    assert gaps["sprint"] <= gaps["power"] <= gaps["general_strength"]


# Malone et al. 2017, J Sci Med Sport 20:250-4: at least one run near top speed a week.
def test_a_week_without_sprinting_is_missed():
    assert breaches("sprint", [1, 1, 0, 1, 1, 1, 1, 1]) == [2]


# Spiering et al. 2021, JSCR 35(5):1449-58: strength held up to 32 weeks on one session a week and
# one set an exercise if load is kept. Bickel et al. 2011, MSSE 43(7) (from memory): 1/9 of the
# building volume for the young, 1/3 for the older.
@pytest.mark.parametrize("quality", QUALITIES.values(), ids=QUALITIES)
def test_a_touch_is_a_ninth_of_the_full_volume_or_more_and_not_much_above_a_third(quality):
    share = quality.minutes(Dose.TOUCH) / quality.minutes(Dose.FULL)

    assert 1 / 9 <= share <= 0.4


@pytest.mark.parametrize("quality", QUALITIES.values(), ids=QUALITIES)
def test_a_touch_keeps_more_of_the_stimulus_than_of_the_volume(quality):
    top = gains(quality)[-1]
    shares = [
        (top[dose] / top[Dose.FULL], quality.minutes(dose) / quality.minutes(Dose.FULL))
        for dose in (Dose.TOUCH, Dose.REDUCED)
    ]

    assert all(kept > spent for kept, spent in shares)


# The same: touches of the band that built it hold more than half of the level for 32 weeks.
def test_strength_is_held_for_thirty_two_weeks_of_touches_well_above_what_rest_leaves():
    quality = QUALITIES["max_strength"]
    level = _level(quality, [Dose.FULL] * 200)

    touched = _level(quality, [Dose.FULL] * 200 + [Dose.TOUCH] * 32)
    rested = _level(quality, [Dose.FULL] * 200 + [Dose.NONE] * 32)

    assert touched > 0.5 * level > 10 * rested


def _level(quality, doses):
    """Return the fitness that weeks of ``doses`` on the top band lead to."""
    fitness = 0.0
    for dose in doses:
        fitness = fitness * float(decay(quality.tau_fitness, 1)) + gains(quality)[-1][dose]
    return fitness


# Schoenfeld et al. 2017, J Sports Sci 35(11):1073-82 and Baz-Valle et al. 2022, J Hum Kinet: up to
# about 20 weekly sets a muscle.
def test_no_default_band_asks_for_more_than_twenty_hard_sets():
    sets = [
        band.amounts.get("hard_sets", 0)
        for quality in QUALITIES.values()
        for band in quality.bands
    ]

    assert 0 < max(sets) <= 20
