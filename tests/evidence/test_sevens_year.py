"""A published year of rugby sevens: its shape, and how our plan of that shape compares.

Couderc and others 2020 (names from memory), "Road to Rio", Frontiers in Sports and Active Living
1:72: one squad, 48 weeks, 12 of pre-season, 25 in season and 11 before the Games; internal load in
season, competitions included, 38 +- 3 % below pre-season. Rule ``phase_load`` speaks of training
without matches, so it is not that figure; how far a plan under default rules falls is told in the
table of evidence.
"""

from itertools import groupby
from statistics import fmean

import pytest
from sevens_year import (
    GAMES,
    IN,
    LEGS,
    PRE,
    planned_sevens,
    sevens_rules,
    sevens_season,
    whole_load,
)

from optimiser.review.audit import audit_plan
from optimiser.review.score import readiness


@pytest.fixture(scope="module")
def planned():
    return planned_sevens()


def test_the_year_has_the_published_shape():
    weeks = sevens_season().weeks
    lengths = [len(list(run)) for _, run in groupby(weeks, key=lambda week: week.phase)]

    assert lengths[:2] == [12, 25]
    assert sum(lengths[2:]) == 11


def test_such_a_year_can_be_planned_under_every_default_rule(planned):
    season, plan = planned

    assert audit_plan(season, plan, sevens_rules()) == []


def test_load_in_season_falls_below_pre_season_matches_included(planned):
    season, plan = planned

    assert whole_load(season, plan, IN) < whole_load(season, plan, PRE)


def test_load_before_the_games_is_heavier_again(planned):
    season, plan = planned

    assert whole_load(season, plan, GAMES) > whole_load(season, plan, IN)


def test_tournaments_are_met_on_the_whole(planned):
    season, plan = planned
    ready, _ = readiness(season, plan)

    # Our own demand (no source): what it costs to keep every default rule.
    assert fmean(ready[week] - season.weeks[week].target for week in LEGS) > -3
