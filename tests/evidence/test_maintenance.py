"""Least exposures and light doses against studies of what keeps a quality."""

import pytest
from made_seasons import make_plan, make_season

from constraints.exposure import Exposure
from optimiser.domain.quality import Dose
from optimiser.setup.qualities import default_qualities

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
@pytest.mark.parametrize(("key", "most"), [("sprint", 8), ("max_strength", 35)])
def test_no_quality_may_rest_for_longer_than_it_lasts(key, most):
    allowed = [days for days in range(7, 70, 7) if not breaches(key, rested(days // 7))]

    assert max(allowed) <= most


def rested(weeks):
    """Return doses with the next exposure so many weeks after the last."""
    return ([1] + [0] * (weeks - 1)) * 3 + [1] * 5


# Malone et al. 2017, J Sci Med Sport 20:250-4: at least one run near top speed a week.
def test_a_week_without_sprinting_is_missed():
    assert breaches("sprint", [1, 1, 0, 1, 1, 1, 1, 1]) == [2]


# Spiering et al. 2021, JSCR 35(5):1449-58: strength held up to 32 weeks on one session a week and
# one set an exercise if load is kept. Bickel et al. 2011, MSSE 43(7) (from memory): 1/9 of the
# building volume for the young, 1/3 for the older.
@pytest.mark.parametrize("quality", QUALITIES.values(), ids=QUALITIES)
def test_a_touch_is_a_ninth_of_the_full_volume_or_more_and_not_much_above_a_third(quality):
    rungs = range(len(quality.bands))
    shares = [quality.minutes(Dose.TOUCH, at) / quality.minutes(Dose.FULL, at) for at in rungs]

    assert all(1 / 9 <= share <= 0.5 for share in shares)


# Schoenfeld et al. 2017, J Sports Sci 35(11):1073-82 and Baz-Valle et al. 2022, J Hum Kinet: up to
# about 20 weekly sets a muscle.
def test_no_default_band_asks_for_more_than_twenty_hard_sets():
    sets = [
        band.amounts.get("hard_sets", 0) for quality in QUALITIES.values() for band in quality.bands
    ]

    assert 0 < max(sets) <= 20
