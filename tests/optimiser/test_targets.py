import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimiser.calendar import build_weeks
from optimiser.domain.fixture import Fixture
from optimiser.domain.scenario import Scenario
from optimiser.domain.target_settings import TargetSettings
from optimiser.qualities import default_qualities
from optimiser.targets import emphasis_targets, readiness_targets

MONDAY = dt.date(2027, 1, 4)
QUALITIES = {quality.key: quality for quality in default_qualities()}
# Written out, so that retuned defaults do not move what is checked here.
RECIPE = TargetSettings.model_validate(
    {
        "off_season": 40,
        "pre_season_from": 45,
        "pre_season_to": 62,
        "with_fixture": 66,
        "without_fixture": 60,
        "high": {"peak": 95, "step": 5, "weeks": 4},
        "medium": {"peak": 84, "step": 5, "weeks": 2},
        "let_down": [55, 50, 55],
        "let_down_unless": 80,
    }
)


def weeks_of(length, ranks, phases=None):
    fixtures = [
        Fixture(date=MONDAY + dt.timedelta(weeks=week, days=5), priority=rank)
        for week, rank in ranks.items()
    ]
    starts = phases or [("in-season", 1)]
    scenario = Scenario.model_validate(
        {
            "name": "Testers",
            "first_monday": MONDAY,
            "weeks": length,
            "phases": [{"phase": phase, "first_week": first} for phase, first in starts],
        }
    )
    return build_weeks(scenario, fixtures)


def sprint(lead, low=0, high=100):
    changes = {"lead": lead, "low": low, "high": high}
    return QUALITIES["sprint"].model_copy(update=changes)


def test_the_base_follows_the_phase_and_the_fixture():
    weeks = weeks_of(8, {6: "low"}, [("off-season", 1), ("pre-season", 3), ("in-season", 6)])

    targets = readiness_targets(weeks, RECIPE)

    assert targets == [40, 40, 45, pytest.approx(53.5), 62, 60, 66, 60]


def test_a_single_week_of_pre_season_stands_at_the_top_of_its_climb():
    weeks = weeks_of(2, {}, [("pre-season", 1), ("in-season", 2)])

    assert readiness_targets(weeks, RECIPE) == [62, 60]


def test_a_high_fixture_is_climbed_to_and_let_down_from():
    targets = readiness_targets(weeks_of(11, {5: "high"}), RECIPE)

    assert targets == [60, 75, 80, 85, 90, 95, 55, 50, 55, 60, 60]


def test_a_medium_fixture_is_climbed_to_in_two_weeks():
    targets = readiness_targets(weeks_of(6, {3: "medium"}), RECIPE)

    assert targets == [60, 74, 79, 84, 60, 60]


def test_a_peak_in_the_first_week_has_no_climb():
    assert readiness_targets(weeks_of(2, {0: "high"}), RECIPE) == [95, 55]


def test_a_let_down_gives_way_to_a_run_in_that_is_high_enough():
    targets = readiness_targets(weeks_of(9, {1: "high", 7: "high"}), RECIPE)

    assert targets == [90, 95, 55, 50, 80, 85, 90, 95, 55]


def test_two_high_fixtures_two_weeks_apart_are_one_peak():
    targets = readiness_targets(weeks_of(4, {0: "high", 2: "high"}), RECIPE)

    assert targets == [95, 90, 95, 55]


def test_a_week_set_by_hand_is_firm():
    settings = RECIPE.model_copy(update={"by_week": {1: 30.0, 3: 88.0}})

    targets = readiness_targets(weeks_of(4, {3: "high"}), settings)
    (emphasis,) = emphasis_targets(weeks_of(4, {3: "high"}), [sprint(lead=3)], settings)

    assert targets == [30, 85, 88, 95]
    assert emphasis == (30, 95, 88, 95)


def test_a_quality_with_a_lead_stands_where_the_peak_will_be():
    (emphasis,) = emphasis_targets(weeks_of(7, {5: "high"}), [sprint(lead=2)], RECIPE)

    assert emphasis == (80, 85, 90, 95, 95, 95, 55)


def test_a_lead_looks_at_the_base_in_pre_season_only():
    weeks = weeks_of(4, {2: "low"}, [("off-season", 1), ("pre-season", 2), ("in-season", 3)])

    (emphasis,) = emphasis_targets(weeks, [sprint(lead=1)], RECIPE)

    assert emphasis == (40, 66, 66, 60)


def test_the_range_of_a_quality_holds_its_emphasis():
    (emphasis,) = emphasis_targets(weeks_of(2, {1: "high"}), [sprint(0, 10, 60)], RECIPE)

    assert emphasis == (10 + 0.9 * 50, 10 + 0.95 * 50)


@given(
    ranks=st.dictionaries(
        st.integers(0, 29), st.sampled_from(["high", "medium", "low"]), max_size=12
    ),
    lead=st.integers(0, 12),
)
def test_a_lead_only_lifts_and_never_out_of_a_let_down(ranks, lead):
    weeks = weeks_of(30, ranks)

    plain, led = emphasis_targets(weeks, [sprint(0), sprint(lead)], RECIPE)

    assert all(later >= now for now, later in zip(plain, led, strict=True))
    assert all(later == now for now, later in zip(plain, led, strict=True) if now in (50, 55))
    assert all(0 <= value <= 100 for value in led)
