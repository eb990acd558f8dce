"""Every demo season: its recorded optimum, and whether a coach would take it for a plan.

What a coach looks for here is common practice, no source.
"""

from functools import cache
from itertools import groupby, pairwise, takewhile
from statistics import mean

import pytest
from demo_seasons import DEMOS, LONG, load, recorded, solve

from cli.files.scenario_rules import read_rules
from optimiser.domain.fixture import Priority
from optimiser.domain.quality import Dose
from optimiser.review.audit import audit_plan
from optimiser.review.score import training_minutes

#: Peaks at most this many weeks apart are one.
SAME_PEAK = 2
#: Weeks between two peaks that leave room to go down and climb again.
ROOM = 14
RUN_IN = 4


@cache
def solved(name):
    loaded = load(name)
    return loaded, solve(name)


@pytest.fixture(params=DEMOS, scope="module")
def name(request):
    return request.param


@pytest.fixture
def demo(name):
    """Return the season and the plan."""
    loaded, outcome = solved(name)
    return loaded.season, outcome.plan


# --- the record ---------------------------------------------------------------------------


def test_a_quick_plan_costs_at_most_two_per_cent_more_than_the_best_on_record(name):
    verdict, before = solved(name)[1].verdict, recorded()[name]

    assert before["status"] == "proven"
    assert verdict.bound <= before["cost"]
    assert before["bound"] <= verdict.cost <= 1.02 * before["cost"]


def test_the_record_is_of_the_season_as_it_is_now(name):
    assert recorded()[name]["digest"] == solved(name)[0].digest


def test_the_plan_keeps_every_rule(name):
    loaded, outcome = solved(name)

    assert audit_plan(loaded.season, outcome.plan, read_rules(loaded)) == []


# --- what a coach would look for ----------------------------------------------------------


def test_nobody_trains_hard_to_come_down_from_the_last_match(demo):
    season, plan = demo
    last = max(week.index for week in season.weeks if week.fixtures)
    # a fresh start after time off is another matter
    after = takewhile(lambda week: not week.closed, season.weeks[last + 1 :])

    for week in after:
        # half a per cent of the cost, where a search may end, can be one dose
        assert sum(row[week.index] is Dose.FULL for row in plan.doses) <= 1


def peaks(season):
    """Return the last week of each peak."""
    weeks = season.weeks_with(Priority.HIGH)
    return [week for week, after in pairwise([*weeks, 10**6]) if after - week > SAME_PEAK]


def position(season, plan, week):
    """Return the mean place on the ladders, 0 general to 100 specific; None in a closed week."""
    rungs = [row[week] for row in plan.rungs]
    if None in rungs:
        return None
    return mean(q.position(rung) for q, rung in zip(season.qualities, rungs, strict=True))


def lately_closed(season, week, weeks):
    """Tell whether a break of two weeks or more ended in the last ``weeks`` weeks."""
    shut = [season.weeks[past].closed for past in range(max(0, week - weeks), week + 1)]
    return any(first and second for first, second in pairwise(shut))


def test_every_quality_is_trained_in_every_phase(demo):
    season, plan = demo
    for _, weeks in groupby(season.weeks, key=lambda week: week.phase):
        opened = [week.index for week in weeks if not week.closed]

        missing = [
            key
            for key, row in zip(season.keys, plan.doses, strict=True)
            if opened and all(row[week] is Dose.NONE for week in opened)
        ]
        assert missing == []


def test_bands_are_more_specific_at_a_peak_than_ten_weeks_before(demo):
    season, plan = demo
    for before, week in pairwise([-99, *peaks(season)]):
        if week < 10 or week - before <= ROOM or lately_closed(season, week, 10):
            continue  # the last peak or a break stands in between
        now = mean(position(season, plan, day) for day in range(week - 2, week + 1))

        assert now > position(season, plan, week - 10)


def test_the_week_that_opens_a_block_is_lighter_than_those_after_it(demo):
    """A run-in to a fixture and a crowded week are lighter too, so those weeks are left out."""
    season, plan = demo
    eased = {high - back for high in season.weeks_with(Priority.HIGH) for back in (0, 1)}
    eased |= set(season.weeks_with(Priority.MEDIUM))
    eased |= {week.index for week in season.weeks if len(week.fixtures) > 1}
    for block in plan.blocks():
        loading = [week for week in block[1:] if week not in eased]
        minutes = [training_minutes(season, plan, week) for week in loading]

        assert not minutes or training_minutes(season, plan, block[0]) < mean(minutes)


@pytest.mark.parametrize("name", LONG, scope="module")
def test_between_two_peaks_each_quality_comes_down_once_and_climbs_again(name):
    loaded, outcome = solved(name)
    season, plan = loaded.season, outcome.plan
    first, *_, last = peaks(season)
    if last - first <= ROOM:
        first = next(week.index for week in season.weeks if week.fixtures)

    for row in plan.rungs:
        between = [rung for rung in row[first : last + 1] if rung is not None]
        low = between.index(min(between))
        assert between[low] <= 1
        assert max(between[low:]) > between[low]


def test_hard_sets_fall_from_the_middle_of_the_general_strength_ladder_to_its_top(demo):
    season, _ = demo
    general = season.qualities[season.keys.index("general_strength")]
    sets = [band.amounts.get("hard_sets", 0) for band in general.bands]
    peak = sets.index(max(sets))

    assert sets[peak:] == sorted(sets[peak:], reverse=True)
    assert sets[-1] < sets[peak]


def test_nobody_starts_at_the_top_of_the_sprint_ladder_after_two_weeks_off(demo):
    season, plan = demo
    row = plan.rungs[season.keys.index("sprint")]
    top = len(season.qualities[season.keys.index("sprint")].bands) - 1
    back = [
        w.index
        for w in season.weeks[2:]
        if not w.closed and all(season.weeks[w.index - off].closed for off in (1, 2))
    ]

    assert not [week for week in back if row[week] == top]


def test_at_a_peak_four_of_six_qualities_stand_on_their_top_two_rungs(demo):
    season, plan = demo
    for week in season.weeks_with(Priority.HIGH):
        if lately_closed(season, week, 8):
            continue
        high = [
            quality.key
            for quality, row in zip(season.qualities, plan.rungs, strict=True)
            if row[week] >= len(quality.bands) - 2
        ]

        assert len(high) >= 4


# Bosquet et al. 2007, MSSE 39(8):1358-65: volume down by 41-60 % did best.
def test_the_last_two_weeks_before_a_peak_are_lighter_by_two_to_three_fifths(demo):
    season, plan = demo
    for week in peaks(season):
        usual = [
            training_minutes(season, plan, day)
            for day in range(max(0, week - 6), week - 1)
            # crowded weeks and those of medium fixtures are lighter anyway
            if not season.weeks[day].closed
            and day not in plan.starts
            and day not in season.weeks_with(Priority.MEDIUM)
            and len(season.weeks[day].fixtures) < 2
        ]
        taper = mean(training_minutes(season, plan, day) for day in (week - 1, week))

        # minutes come in fives
        assert 0.38 <= 1 - taper / mean(usual) <= 0.62


def test_no_rung_falls_in_a_run_in(demo):
    season, plan = demo
    for week in season.weeks_with(Priority.HIGH):
        for row in plan.rungs:
            run = [rung for rung in row[max(0, week - RUN_IN) : week + 1] if rung is not None]
            assert run == sorted(run)


def test_the_qualities_are_not_all_stressed_alike(demo):
    season, plan = demo
    opened = [week.index for week in season.weeks if not week.closed]
    alike = [week for week in opened if len({row[week] for row in plan.doses}) == 1]

    assert len(alike) < len(opened) / 2
