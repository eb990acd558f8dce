"""A year of rugby sevens of the published shape: 12 weeks, 25 in season, 11 before the Games."""

import datetime as dt
from functools import cache
from statistics import fmean

from constraints.load import load_rules
from optimiser.domain.fixture import Fixture, Priority
from optimiser.domain.scenario import PhaseStart, Scenario
from optimiser.domain.season import Phase
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import solve_season
from optimiser.review.score import training_load
from optimiser.setup.build import build_season

FIRST = dt.date(2025, 9, 1)
PRE, IN, GAMES = range(12), range(12, 37), range(37, 48)
LEGS = (13, 14, 18, 19, 24, 25, 30, 31, 35, 36)


@cache
def sevens_season():
    """Return the season: ten tournaments in pairs, then one of three days."""
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
    return build_season(scenario, fixtures)


@cache
def sevens_rules():
    """Return the default rules."""
    return load_rules({}, sevens_season())


@cache
def planned_sevens():
    """Return the season and its plan under default rules."""
    season = sevens_season()
    settings = Settings(quick=True)
    return season, solve_season(season, sevens_rules(), settings).plan


def whole_load(season, plan, weeks):
    """Return the mean load of own work, practice and matches, in AU a week."""
    return fmean(
        training_load(season, plan, week) + season.weeks[week].fixed_load for week in weeks
    )
