"""The priority above high, and fixtures with a target and a weight of their own."""

import datetime as dt
from pathlib import Path

import pytest

from cli.files.scenario_file import load_scenario
from constraints.load import load_rules
from optimiser.domain.fixture import Fixture, Priority
from optimiser.domain.rates import Rates
from optimiser.joint_model.solve import solve_season
from optimiser.review.score import match_score, readiness

FIRST = dt.date(2027, 2, 1)


def season_of(*last, weeks=14):
    """Return a season whose last weeks hold the matches that ``last`` says."""
    rows = ", ".join(
        f"{{ date = {FIRST + dt.timedelta(weeks=weeks - len(last) + at, days=5)}, {words} }}"
        for at, words in enumerate(last)
    )
    told = f'name = "Peak"\nfirst_monday = {FIRST}\nweeks = {weeks}\nfixtures = [{rows}]\n'
    return load_scenario(told, Path("peak.toml")).season


def test_a_peak_is_eased_into_as_a_high_fixture_is_and_counts_among_them():
    season = season_of('priority = "peak"')

    assert season.weeks_with(Priority.HIGH) == [13]
    assert season.weeks[13].top_priority is Priority.PEAK
    assert season.weeks[13].target == season_of('priority = "high"').weeks[13].target


def test_a_point_at_a_peak_costs_twice_one_at_a_high_fixture():
    weights = [
        Rates().week(season_of(f'priority = "{name}"').weeks[13])
        for name in ("peak", "high", "medium", "low")
    ]

    assert weights == [16, 8, 4, 2]
    assert Rates().week(season_of('priority = "low"').weeks[0]) == 1


def test_a_fixture_may_say_its_own_target_and_weight():
    season = season_of('priority = "high", target = 88, weight = 12')

    assert [week.target for week in season.weeks[11:]] == [74, 81, 88]
    assert Rates().week(season.weeks[13]) == 12
    assert season_of('priority = "low", target = 40').weeks[13].target == 40


@pytest.mark.parametrize("given", [{"target": 101}, {"weight": 0}])
def test_a_target_or_weight_that_makes_no_sense_is_refused(given):
    with pytest.raises(ValueError, match=r"less than|greater than"):
        Fixture(date=FIRST, **given)


def test_of_two_neighbours_the_readier_is_the_peak():
    lead = {}
    for ranks in (("peak", "low"), ("low", "peak")):
        season = season_of(*(f'priority = "{rank}"' for rank in ranks), weeks=8)
        plan = solve_season(season, load_rules({}, season)).plan
        ready, _ = readiness(season, plan)
        lead[ranks] = ready[6] - ready[7]
        assert match_score(season, plan).at_high is not None

    assert lead["peak", "low"] > lead["low", "peak"]
