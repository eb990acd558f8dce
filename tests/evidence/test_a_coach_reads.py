"""A solved season as a coach reads it: what leads when, how it climbs, what a peak finds.

Common practice, no source, unless said: amounts by phase, sessions by phase, ladders end to end.
Sessions: Weldon et al. 2022, Biol Sport 39(3):715-26 (three to four in the gym out of season, two
to three in season).
"""

import datetime as dt
from itertools import groupby, pairwise
from pathlib import Path
from statistics import mean

import pytest

from cli.files.scenario_file import load_scenario
from constraints.load import load_rules
from optimiser.domain.season import Phase
from optimiser.joint_model.solve import solve_season
from optimiser.review.audit import audit_plan
from optimiser.review.score import readiness, training_load

FIRST = dt.date(2026, 6, 29)
WEEKS, OFF, PRE = 28, 4, 8
PEAK = WEEKS - 1


@pytest.fixture(scope="module")
def season():
    """Return four weeks off season, eight before it and a match a week up to a final."""
    days = [FIRST + dt.timedelta(weeks=week, days=5) for week in range(OFF + PRE, WEEKS)]
    rows = ", ".join(f"{{ date = {day} }}" for day in days[:-1])
    text = f"""
name = "A year in small"
first_monday = {FIRST}
weeks = {WEEKS}
fixtures = [{rows}, {{ date = {days[-1]}, priority = "peak" }}]
[[phases]]
phase = "off-season"
first_week = 1
[[phases]]
phase = "pre-season"
first_week = {OFF + 1}
[[phases]]
phase = "in-season"
first_week = {OFF + PRE + 1}
"""
    return load_scenario(text, Path("small.toml")).season


@pytest.fixture(scope="module")
def rules(season):
    return load_rules({}, season)


@pytest.fixture(scope="module")
def plan(season, rules):
    return solve_season(season, rules).plan


@pytest.fixture(scope="module")
def loading(season, rules, plan):
    """Return the weeks that are neither a deload nor a taper."""
    marked = {week for rule in rules for week in rule.marks(plan, season)}
    return [week.index for week in season.weeks if week.index not in marked]


def minutes(season, plan, weeks, ends):
    """Return the minutes of the qualities whose key ends so."""
    return sum(
        quality.minutes(doses[week], rungs[week])
        for quality, doses, rungs in zip(season.qualities, plan.doses, plan.rungs, strict=True)
        for week in weeks
        if quality.key.endswith(ends)
    )


def strength_share(season, plan, weeks):
    return minutes(season, plan, weeks, "strength") / minutes(season, plan, weeks, "")


def phase_of(season, weeks, phase):
    return [week for week in weeks if season.weeks[week].phase is phase]


def test_the_plan_keeps_every_rule(season, rules, plan):
    assert audit_plan(season, plan, rules) == []


def test_far_from_the_peak_strength_takes_more_than_45_per_cent_and_near_it_less_than_35(
    season, plan
):
    assert strength_share(season, plan, range(OFF + PRE)) > 0.45
    assert strength_share(season, plan, (PEAK - 1, PEAK)) < 0.35


def test_own_work_before_the_season_is_at_least_1_4_times_that_in_season(season, plan, loading):
    before = [training_load(season, plan, w) for w in phase_of(season, loading, Phase.PRE)]
    inside = [training_load(season, plan, w) for w in phase_of(season, loading, Phase.IN)]

    assert mean(before) >= 1.4 * mean(inside)


def test_sessions_follow_the_phase(season, plan, loading):
    gym = {
        phase: mean(plan.gym[week] for week in phase_of(season, loading, phase)) for phase in Phase
    }

    assert gym[Phase.PRE] >= 2.5
    assert 1.5 <= gym[Phase.IN] <= 2
    assert 2 <= gym[Phase.OFF] <= 3


def test_practice_climbs_into_the_season_and_eases_before_the_peak(season):
    loads = [week.practice_load for week in season.weeks]

    assert loads[OFF : OFF + 5] == sorted(loads[OFF : OFF + 5])
    assert loads[OFF] <= 0.5 * loads[OFF + 5]
    assert 0.6 <= loads[PEAK] / loads[PEAK - 1] <= 0.8


def test_ladders_start_at_the_bottom_and_end_at_the_top(season, plan):
    for quality, row in zip(season.qualities, plan.rungs, strict=True):
        assert row[0] == 0, quality.key
        assert row[PEAK] == len(quality.bands) - 1, quality.key


def test_no_band_lasts_longer_than_eight_weeks_but_in_a_plain_league_stretch(plan):
    for row in plan.rungs:
        assert max(len(list(run)) for _, run in groupby(row[: OFF + PRE])) <= 8
        assert max(len(list(run)) for _, run in groupby(row)) <= WEEKS - OFF - PRE - 4


def test_nothing_new_in_the_last_three_weeks(plan):
    for row in plan.rungs:
        assert set(row[PEAK - 2 :]) <= set(row[: PEAK - 2])


def test_doses_of_like_weeks_of_a_block_are_the_same(season, plan, loading):
    """At most one in twenty differs."""
    usual = [week for week in loading if len(season.weeks[week].fixtures) < 2]
    pairs = [
        (before, now)
        for block in plan.blocks()
        for before, now in pairwise(block)
        if {before, now} <= set(usual)
        and len(season.weeks[before].fixtures) == len(season.weeks[now].fixtures)
    ]
    cells = [row[before] is row[now] for row in plan.doses for before, now in pairs]

    assert cells.count(False) <= 0.05 * len(cells)


def test_readiness_meets_the_peak(season, plan):
    ready, _ = readiness(season, plan)

    assert ready[PEAK] >= season.weeks[PEAK].target - 1.5
