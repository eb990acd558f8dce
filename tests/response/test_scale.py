"""The readiness scale: what 100 means, and that a peak can be reached."""

import datetime as dt
from pathlib import Path
from random import Random

import numpy as np
import pytest
from made_seasons import random_plan, random_season

from cli.files.scenario_file import load_scenario
from constraints.load import load_rules
from optimiser.domain.fixture import Priority
from optimiser.domain.season import Event
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import solve_season
from optimiser.response.readiness import UNITS, kernel, outside
from optimiser.review.score import match_cost_by_week, readiness

FIRST = dt.date(2026, 6, 15)


def weekly_season():
    """A season of 27 weeks with one match a week, the last one of high priority."""
    days = [FIRST + dt.timedelta(days=5 + 7 * week) for week in range(9, 26)]
    rows = ", ".join(
        f'{{ date = {day}, priority = "{"high" if day == days[-1] else "low"}" }}' for day in days
    )
    text = f'name = "Scale"\nfirst_monday = {FIRST}\nweeks = 27\nfixtures = [{rows}]\n'
    return load_scenario(text, Path("scale.toml"))


def test_a_legal_plan_with_one_match_a_week_reaches_its_target_at_a_high_fixture():
    loaded = weekly_season()

    rules = load_rules(loaded.scenario.rules, loaded.season)
    outcome = solve_season(loaded.season, rules, Settings(quick=True))

    assert outcome.plan is not None
    ready, _ = readiness(loaded.season, outcome.plan)
    [peak] = loaded.season.weeks_with(Priority.HIGH)
    assert loaded.season.weeks[peak].target == 95
    assert 94 <= ready[peak] <= 98


def test_the_whole_number_kernel_stays_within_a_fiftieth_of_a_point():
    rng = Random(4)
    for _ in range(10):
        season = random_season(rng)
        plan = random_plan(rng, season)

        whole = whole_number_readiness(season, plan)

        assert np.allclose(whole, readiness(season, plan)[0], atol=0.02)


def whole_number_readiness(season, plan):
    tables, background = kernel(season).whole()
    ready = background.copy()
    for week in range(len(season.weeks)):
        for index, table in enumerate(tables):
            for past in range(week + 1):
                rung = plan.rungs[index][past]
                if rung is not None:
                    ready[week] += table[week - past, rung, plan.doses[index][past]]
    return ready / UNITS


def test_two_ways_to_the_cost_of_matches_agree():
    rng = Random(5)
    for _ in range(20):
        season = random_season(rng)

        # from Friday to Monday
        days = [week.monday + dt.timedelta(days=4) for week in season.weeks]
        events = season.model_copy(
            update={"events": [Event(first=day, last=day + dt.timedelta(days=3)) for day in days]}
        )

        assert outside(season) == pytest.approx(match_cost_by_week(season))
        assert outside(events) == pytest.approx(match_cost_by_week(events))


def test_the_same_season_and_seed_give_the_same_plan_twice():
    loaded = weekly_season()
    rules = load_rules(loaded.scenario.rules, loaded.season)
    settings = Settings(quick=True)

    first, second = (solve_season(loaded.season, rules, settings) for _ in range(2))

    assert first.plan == second.plan
