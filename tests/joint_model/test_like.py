"""Which neighbouring weeks the calendar leaves alike."""

import datetime as dt

import pytest
from made_seasons import FIRST_MONDAY, make_season

from optimiser.domain.fixture import Fixture, Priority
from optimiser.joint_model.like import like_before


def played(*days, priority=Priority.LOW):
    return [Fixture(date=FIRST_MONDAY + dt.timedelta(days=day), priority=priority) for day in days]


@pytest.mark.parametrize(
    ("fixtures", "alike"),
    [
        ([], [False, True, True, True]),
        (played(5, 12, 19, 26), [False, True, True, True]),
        (played(2, 5, 9, 12, 16, 19, 23, 26), [False, False, False, False]),
        (played(5, 12), [False, True, False, True]),
        (played(26, priority=Priority.HIGH), [False, True, False, False]),
    ],
)
def test_weeks_are_alike_with_as_many_matches_one_at_most_and_no_peak_ahead(fixtures, alike):
    assert like_before(make_season(4, fixtures=fixtures)) == alike


def test_a_closed_week_is_like_no_other():
    assert like_before(make_season(4, closed=[1])) == [False, False, False, True]
