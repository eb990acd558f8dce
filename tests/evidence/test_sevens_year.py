"""A published year of rugby sevens: its shape, and how our plan of that shape compares.

"Road to Rio", Frontiers in Sports and Active Living 2020; 1:72: 48 weeks, 12 of pre-season, 25 in
season and 11 before the Games; internal load in season 38 +- 3 % below pre-season.

The size of that fall is not asserted. A plan made with the defaults has in-season training
(practice and own sessions) about a fifth below pre-season, and with matches about as much:
practice is set by phase in the scenario and is not ours to choose, and the readiness targets of a
season that plays all year leave the own sessions near their pre-season load.
"""

import datetime as dt
from itertools import groupby
from statistics import mean

import pytest

from constraints.load import load_rules
from optimiser.audit import audit_plan
from optimiser.domain.fixture import Fixture, Priority
from optimiser.domain.scenario import PhaseStart, Scenario
from optimiser.domain.season import Phase
from optimiser.score import training_load
from optimiser.season_build import build_season
from optimiser.solve import Settings, solve_season

FIRST = dt.date(2025, 9, 1)
PRE, IN, GAMES = range(12), range(12, 37), range(37, 48)
LEGS = (13, 14, 18, 19, 24, 25, 30, 31, 35, 36)


@pytest.fixture(scope="module")
def year():
    """Return the season and its plan: ten tournaments in pairs, then one of three days."""
    days = [(week, day, Priority.LOW) for week in LEGS for day in (5, 6)]
    days += [(47, 3, Priority.LOW), (47, 4, Priority.LOW), (47, 5, Priority.HIGH)]
    fixtures = tuple(
        Fixture(date=FIRST + dt.timedelta(weeks=week, days=day), minutes=42, priority=priority)
        for week, day, priority in days
    )
    parts = ((Phase.PRE, 1), (Phase.IN, 13), (Phase.PRE, 38), (Phase.IN, 47))
    scenario = Scenario(
        name="Sevens",
        first_monday=FIRST,
        weeks=48,
        fixtures=fixtures,
        phases=tuple(PhaseStart(phase=phase, first_week=week) for phase, week in parts),
    )
    season = build_season(scenario, fixtures)
    effort = Settings(dose_effort=0.6, polish_effort=0.0)
    return season, solve_season(season, load_rules({}, season), effort).plan


def test_the_year_has_the_published_shape(year):
    season, _ = year
    lengths = [len(list(weeks)) for _, weeks in groupby(season.weeks, key=lambda week: week.phase)]

    assert lengths[:2] == [len(PRE), len(IN)] == [12, 25]
    assert sum(lengths[2:]) == len(GAMES) == 11
    assert sum(lengths) == 48


def test_such_a_year_can_be_planned_under_every_default_rule(year):
    season, plan = year

    assert audit_plan(season, plan, load_rules({}, season)) == []


def test_training_in_season_is_lighter_than_in_pre_season(year):
    season, plan = year

    def load(weeks):
        return mean(
            training_load(season, plan, week) + season.weeks[week].practice_load for week in weeks
        )

    assert load(IN) < 0.9 * load(PRE)
