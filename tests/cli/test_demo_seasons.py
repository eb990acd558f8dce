from itertools import pairwise
from pathlib import Path

import pytest

from cli.files.scenario_file import read_scenario
from optimiser.domain.fixture import Priority

FOLDER = Path(__file__).parents[2] / "scenarios"
LONG = ["hockey_two_halves", "rugby_long_season", "football_cup"]
ALL = [*LONG, "lacrosse_term", "gaelic_two_peaks", "minimal", "impossible"]


@pytest.fixture(params=ALL)
def season(request):
    return read_scenario(FOLDER / f"{request.param}.toml").season


def test_peaks_are_six_weeks_apart_or_one_peak(season):
    gaps = [later - earlier for earlier, later in pairwise(season.weeks_with(Priority.HIGH))]

    assert all(gap <= 2 or gap >= 6 for gap in gaps)


def test_there_is_a_peak_and_never_more_than_three(season):
    assert 1 <= sum(fixture.priority is Priority.HIGH for fixture in season.fixtures) <= 3


def test_no_match_is_played_in_a_closed_week(season):
    assert not [week.number for week in season.weeks if week.closed and week.fixtures]


@pytest.mark.parametrize("name", LONG)
def test_a_long_season_is_a_year_of_thirty_to_fifty_matches(name):
    season = read_scenario(FOLDER / f"{name}.toml").season

    assert len(season.weeks) == 52
    assert 30 <= len(season.fixtures) <= 50


def test_no_two_demo_seasons_have_the_same_calendar():
    calendars = {
        tuple(
            (week.monday, len(week.fixtures))
            for week in read_scenario(FOLDER / f"{name}.toml").season.weeks
        )
        for name in ALL
    }

    assert len(calendars) == len(ALL)
