"""A proven plan is a function of the season: not of the order in which it is written down."""

import datetime as dt
from random import Random

import pytest

from constraints.load import load_rules
from optimiser.domain.fixture import Fixture
from optimiser.domain.scenario import Scenario
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import solve_season
from optimiser.setup.build import build_season

WEEKS = 9
FIRST = dt.date(2026, 8, 31)
KEYS = ("sprint", "power", "max_strength")


def proven(seed, shuffle):
    """Return by key what a proven plan says, its starts and sessions."""
    rng = Random(seed)
    days = sorted(rng.sample(range(WEEKS * 7), 5))
    ranks = [rng.choice(("low", "medium", "high")) for _ in days]
    fixtures = [
        Fixture(date=FIRST + dt.timedelta(days=day), priority=rank)
        for day, rank in zip(days, ranks, strict=True)
    ]
    shuffle(fixtures)
    season = build_season(
        Scenario(name="Ties", first_monday=FIRST, weeks=WEEKS, fixtures=fixtures), tuple(fixtures)
    )
    qualities = [quality for quality in season.qualities if quality.key in KEYS]
    emphasis = dict(zip(season.keys, season.emphasis, strict=True))
    shuffle(qualities)
    order = [quality.key for quality in qualities]
    season = season.model_copy(
        update={
            "qualities": tuple(qualities),
            "emphasis": tuple(emphasis[key] for key in order),
        }
    )
    outcome = solve_season(season, load_rules({}, season), Settings().to_the_end())
    assert outcome.verdict is not None
    assert outcome.verdict.status == "proven"
    plan = outcome.plan
    rows = {key: (plan.rungs[i], plan.doses[i]) for i, key in enumerate(order)}
    return rows, plan.starts, plan.field, plan.gym


@pytest.mark.parametrize("seed", [0, 8])
def test_the_order_of_qualities_and_fixtures_does_not_matter(seed):
    assert proven(seed, lambda items: None) == proven(seed, list.reverse)
