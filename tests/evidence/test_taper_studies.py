"""The default taper against published findings."""

from made_seasons import make_season, match_on

from constraints.taper import Taper
from optimiser.domain.fixture import Priority
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose
from optimiser.review.score import training_minutes
from optimiser.setup.qualities import default_qualities

RULE = Taper()
PEAK = 9


def most_minutes(priority):
    """Return the most minutes the rule lets each week have after full weeks, by week."""
    season = peaked(priority)
    full = training_minutes(season, full_weeks(season), 0)
    left: dict[int, int] = {}
    for breach in RULE.audit(full_weeks(season), season):
        if breach.unit == "minutes":
            left[breach.week] = min(left.get(breach.week, full), full - breach.excess)
    return left, full


def peaked(priority):
    fixtures = [match_on(PEAK, priority=priority)]
    return make_season(PEAK + 1, fixtures=fixtures, qualities=default_qualities())


def full_weeks(season, sessions=2):
    weeks = len(season.weeks)
    return Plan(
        starts=(0, 4),
        rungs=((2,) * weeks,) * len(season.qualities),
        doses=((Dose.FULL,) * weeks,) * len(season.qualities),
        field=(sessions,) * weeks,
        gym=(sessions,) * weeks,
    )


# Bosquet, Montpetit, Arvisais, Mujika 2007, "Effects of tapering on performance: a meta-analysis",
# MSSE 39(8):1358-65: about two weeks, 8 to 14 days (the class of days from memory); what is cut is
# in the table of claims, on a planned season.
def test_the_default_taper_lasts_eight_to_fourteen_days():
    left, _ = most_minutes(Priority.HIGH)

    assert sorted(left) == [PEAK - 1, PEAK]
    assert 8 <= 7 * len(left) <= 14


# Mujika and Padilla 2003, "Scientific bases for precompetition tapering strategies", MSSE
# 35(7):1182-7: progressive falls beat one step; sessions fall by 20 % at most.
def test_the_default_taper_falls_week_by_week():
    left, full = most_minutes(Priority.HIGH)

    assert full > left[PEAK - 1] > left[PEAK]


def test_a_fifth_of_the_sessions_may_go_where_the_default_keeps_all():
    season = peaked(Priority.HIGH)
    rule = Taper(sessions=80)
    usual = full_weeks(season, sessions=5)
    lighter = {
        sessions: usual.model_copy(update={"field": (5,) * PEAK + (sessions - 5,)})
        for sessions in (8, 7)
    }

    parts = {
        sessions: {breach.part for breach in rule.audit(plan, season)}
        for sessions, plan in lighter.items()
    }

    assert "sessions" not in parts[8]
    assert "sessions" in parts[7]


# Bosquet et al. 2007: intensity left alone did better.
def test_no_band_may_fall_during_the_default_taper():
    season = peaked(Priority.HIGH)
    plan = full_weeks(season).model_copy(
        update={"starts": (0, 8), "rungs": ((2,) * 8 + (1,) * 2,) * len(season.qualities)}
    )

    found = [breach for breach in RULE.audit(plan, season) if breach.part == "bands"]

    assert {breach.quality for breach in found} == set(season.keys)


# Vachon et al. 2021, IJSPP 16(7):993: rugby union players tested after a block of training and one
# week of taper (no match), load down 55 +- 9 %;
# Pritchard et al. 2015, SCJ 37(2):72-83 (range from memory): 30-70 % for strength.
def test_a_medium_fixture_gets_one_easier_week_within_the_studied_range():
    left, full = most_minutes(Priority.MEDIUM)

    assert list(left) == [PEAK]
    assert 0.30 <= 1 - left[PEAK] / full <= 0.64


def test_a_low_fixture_is_not_tapered_for():
    assert most_minutes(Priority.LOW)[0] == {}
