import datetime as dt

import pytest

from optimiser.domain.fixture import Fixture
from optimiser.domain.scenario import Scenario
from optimiser.domain.target_settings import TargetSettings
from optimiser.setup.calendar import build_weeks
from optimiser.setup.targets import readiness_targets

MONDAY = dt.date(2027, 1, 4)
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
        "rise": 100,
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

    assert targets == [30, 85, 88, 95]


def test_targets_climb_by_so_much_a_week_at_most_and_peaks_stay():
    steep = RECIPE.model_copy(update={"rise": 8.0})

    targets = readiness_targets(weeks_of(11, {5: "high", 10: "medium"}), steep)

    assert targets == [67, 75, 80, 85, 90, 95, 55, 63, 71, 79, 84]


def test_a_week_set_by_hand_is_not_lifted_by_a_climb():
    steep = RECIPE.model_copy(update={"rise": 8.0, "by_week": {1: 30.0}})

    assert readiness_targets(weeks_of(6, {5: "high"}), steep)[0] == 30
