"""Where on its ladder a quality should stand: up after time off, at the top for a peak."""

import datetime as dt
from itertools import groupby
from random import Random

import pytest

from optimiser.domain.fixture import Break, Fixture
from optimiser.domain.scenario import Scenario
from optimiser.setup.calendar import build_weeks
from optimiser.setup.emphasis import emphasis_targets
from optimiser.setup.qualities import default_qualities

MONDAY = dt.date(2027, 1, 4)
SPRINT = default_qualities()[0]
RANKS = ("high", "medium", "low")


def weeks_of(length, ranks, phases=None, closed=()):
    fixtures = [
        Fixture(date=MONDAY + dt.timedelta(weeks=week, days=5), priority=rank)
        for week, rank in ranks.items()
    ]
    starts = phases or [("in-season", 1)]
    breaks = [
        Break(
            kind="rest",
            first=MONDAY + dt.timedelta(weeks=week),
            last=MONDAY + dt.timedelta(weeks=week, days=6),
        )
        for week in closed
    ]
    scenario = Scenario.model_validate(
        {
            "name": "Testers",
            "first_monday": MONDAY,
            "weeks": length,
            "breaks": breaks,
            "phases": [{"phase": phase, "first_week": first} for phase, first in starts],
        }
    )
    return build_weeks(scenario, fixtures)


def emphasis(weeks, lead=0, low=0, high=100):
    changes = {"lead": lead, "low": low, "high": high}
    (row,) = emphasis_targets(weeks, [SPRINT.model_copy(update=changes)])
    return row


def test_a_year_starts_at_the_bottom_and_ends_at_the_top():
    row = emphasis(weeks_of(16, {15: "high"}))

    assert row == (0, 0, 0, 25, 25, 25, 50, 50, 50, 75, 75, 75, 100, 100, 100, 100)


def test_after_a_peak_with_another_far_off_a_ladder_comes_down_and_climbs_again():
    row = emphasis(weeks_of(45, {20: "high", 40: "high"}))

    assert row[17:29] == (100,) * 4 + (25,) * 4 + (50,) * 4
    assert row[29:41] == (75,) * 8 + (100,) * 4


def test_peaks_close_together_leave_a_ladder_up():
    row = emphasis(weeks_of(30, {20: "high", 28: "high"}))

    assert min(row[17:29]) == 75


def test_a_long_run_to_the_first_peak_has_a_general_block_where_no_match_matters():
    row = emphasis(weeks_of(40, {30: "low", 12: "medium", 28: "medium", 39: "high"}))

    low = [week for week, level in enumerate(row) if level == 25 and week > 6]
    assert len(low) == 4
    assert low[0] > 12
    assert low[-1] + 4 < 28
    assert row[low[-1] + 1 : low[-1] + 5] == (50,) * 4


@pytest.mark.parametrize(("closed", "first_back"), [((20, 21), 75), ((20, 21, 22), 0)])
def test_three_weeks_off_start_the_ladder_again_and_two_do_not(closed, first_back):
    row = emphasis(weeks_of(30, {29: "high"}, closed=closed))

    assert row[max(closed) + 1] == first_back


def test_a_pre_season_climbs_in_blocks():
    phases = [("off-season", 1), ("pre-season", 5), ("in-season", 17)]
    row = emphasis(weeks_of(40, {39: "high"}, phases))

    assert row[:3] == (0, 0, 0)
    assert row[4:16] == (25,) * 4 + (50,) * 4 + (75,) * 4


def test_a_quality_with_a_lead_is_at_the_top_sooner():
    weeks = weeks_of(30, {29: "high"})

    assert emphasis(weeks, lead=4)[22:26] == (100,) * 4
    assert max(emphasis(weeks)[22:26]) == 75


def test_no_quality_stands_still_for_more_than_eight_weeks():
    row = emphasis(weeks_of(44, {43: "high"}))
    runs = [len(list(run)) for _, run in groupby(row)]

    assert max(runs) <= 8
    assert min(runs[1:]) >= 3


def test_the_range_of_a_quality_holds_its_emphasis():
    assert emphasis(weeks_of(30, {29: "high"}), low=10, high=60)[-1] == 60


@pytest.mark.parametrize("seed", range(30))
def test_emphasis_is_a_place_on_the_ladder_whatever_the_calendar(seed):
    rng = Random(seed)
    days = rng.sample(range(30), rng.randint(1, 12))
    row = emphasis(weeks_of(30, {day: rng.choice(RANKS) for day in days}), rng.randint(0, 12))

    assert set(row) <= {0, 25, 50, 75, 100}
    assert row[0] == 0
