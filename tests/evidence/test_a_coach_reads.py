"""A solved year as a coach reads it: what leads when, how it climbs, what a peak finds.

The year: four closed weeks, four off season, twelve of pre-season, 28 in season (common practice,
no source).

Common practice, no source, unless said: amounts by phase, sessions by phase, ladders end to end.
Sessions: Weldon et al. 2022, Biol Sport 39(3):715-26 (three to four in the gym out of season, two
to three in season).
"""

import datetime as dt
from pathlib import Path
from statistics import mean

import pytest
from plan_reading import (
    dose_changes,
    loading_weeks,
    longest_run,
    own_load,
    strength_share,
    usual_weeks,
)

from cli.files.scenario_file import load_scenario
from constraints.load import load_rules
from optimiser.domain.season import Phase
from optimiser.joint_model.solve import solve_season
from optimiser.review.audit import audit_plan
from optimiser.review.score import readiness, training_load

FIRST = dt.date(2026, 6, 29)
CLOSED, OFF, PRE, WEEKS = 4, 4, 12, 48
#: First weeks of the pre-season and of the season, and the last of all.
BUILD, START, PEAK = CLOSED + OFF, CLOSED + OFF + PRE, WEEKS - 1


@pytest.fixture(scope="module")
def season():
    """Return the year, with a match a week in season up to a final."""
    days = [FIRST + dt.timedelta(weeks=week, days=5) for week in range(START, WEEKS)]
    rows = ", ".join(f"{{ date = {day} }}" for day in days[:-1])
    text = f"""
name = "A year"
first_monday = {FIRST}
weeks = {WEEKS}
fixtures = [{rows}, {{ date = {days[-1]}, priority = "peak" }}]
[[phases]]
phase = "off-season"
first_week = 1
[[phases]]
phase = "pre-season"
first_week = {BUILD + 1}
[[phases]]
phase = "in-season"
first_week = {START + 1}
[[breaks]]
kind = "rest"
first = {FIRST}
last = {FIRST + dt.timedelta(weeks=CLOSED, days=-1)}
"""
    return load_scenario(text, Path("year.toml")).season


@pytest.fixture(scope="module")
def rules(season):
    return load_rules({}, season)


@pytest.fixture(scope="module")
def plan(season, rules):
    return solve_season(season, rules).plan


@pytest.fixture(scope="module")
def loading(season, rules, plan):
    return loading_weeks(season, rules, plan)


def phase_of(season, weeks, phase):
    return [week for week in weeks if season.weeks[week].phase is phase]


def test_the_plan_keeps_every_rule(season, rules, plan):
    assert audit_plan(season, plan, rules) == []


def test_far_from_the_peak_strength_takes_more_than_45_per_cent_and_near_it_less_than_35(
    season, plan
):
    assert strength_share(season, plan, range(CLOSED, START)) > 0.45
    assert strength_share(season, plan, (PEAK - 1, PEAK)) < 0.35


def test_own_work_before_the_season_is_at_least_1_4_times_that_in_season(season, plan, loading):
    before, inside = (own_load(season, plan, loading, phase) for phase in (Phase.PRE, Phase.IN))

    assert before >= 1.4 * inside


def test_sessions_follow_the_phase(season, plan, loading):
    gym = {
        phase: mean(plan.gym[week] for week in phase_of(season, loading, phase)) for phase in Phase
    }

    assert gym[Phase.PRE] >= 2.5
    assert 1.5 <= gym[Phase.IN] <= 2
    assert 2 <= gym[Phase.OFF] <= 3


def test_practice_climbs_into_the_season_and_eases_before_the_peak(season):
    loads = [week.practice_load for week in season.weeks]

    assert loads[BUILD : BUILD + 5] == sorted(loads[BUILD : BUILD + 5])
    assert loads[BUILD] <= 0.5 * loads[BUILD + 5]
    assert 0.6 <= loads[PEAK] / loads[PEAK - 1] <= 0.8


def test_ladders_start_at_the_bottom_and_end_at_the_top(season, plan):
    for quality, row in zip(season.qualities, plan.rungs, strict=True):
        assert row[CLOSED] == 0, quality.key
        assert row[PEAK] == len(quality.bands) - 1, quality.key


def test_no_band_lasts_longer_than_eight_weeks(plan):
    for row in plan.rungs:
        assert longest_run(row) <= 8


def test_blocks_last_four_weeks_or_nearly_and_begin_lighter(season, plan):
    blocks = list(plan.blocks())
    loads = [[training_load(season, plan, week) for week in block] for block in blocks]

    assert {len(block) for block in blocks} <= {3, 4}
    assert mean(map(len, blocks)) >= 3.5
    assert all(load[0] < mean(load[1:]) for load in loads[:-1])  # the last one tapers


def test_the_ladder_is_climbed_before_the_season_comes_down_once_in_it_and_is_climbed_again(plan):
    """Sprints go from short to long by its start, are short in the middle, long at the end."""
    for row in plan.rungs:
        before, inside = row[CLOSED:START], row[START:]
        low = inside.index(min(inside))

        assert list(before) == sorted(before)
        assert max(before) >= min(inside) + 2
        assert 4 <= low <= WEEKS - START - 12
        assert inside[-1] == max(inside) >= min(inside) + 3


def test_nothing_new_in_the_last_three_weeks(plan):
    for row in plan.rungs:
        assert set(row[PEAK - 2 :]) <= set(row[CLOSED : PEAK - 2])


def test_doses_of_like_weeks_of_a_block_are_the_same(season, plan, loading):
    assert dose_changes(season, plan, usual_weeks(season, loading)) <= 0.05


def test_readiness_meets_the_peak(season, plan):
    ready, _ = readiness(season, plan)

    assert ready[PEAK] >= season.weeks[PEAK].target - 1.5
