"""How much of a quality is wanted: rising before the matches, by distance to a peak, after it."""

import datetime as dt

import pytest
from made_seasons import FIRST_MONDAY, LADDERS, make_quality, make_season

from optimiser.domain.fixture import Fixture, Priority
from optimiser.domain.rates import Rates
from optimiser.domain.season import Phase
from optimiser.setup.amounts import CURVES, build_up, wanted

KEY = LADDERS[0][0]
CURVE = CURVES[KEY]


def season(weeks, matches=(), high=(), pre=0):
    fixtures = [
        Fixture(
            date=FIRST_MONDAY + dt.timedelta(days=7 * week + 5),
            priority=Priority.HIGH if week in high else Priority.LOW,
        )
        for week in sorted({*matches, *high})
    ]
    phases = [Phase.PRE if week < pre else Phase.IN for week in range(weeks)]
    return make_season(
        weeks, qualities=[make_quality(*LADDERS[0])], fixtures=fixtures, phases=phases
    )


def test_amounts_climb_over_the_pre_season_from_its_first_to_its_last_week():
    (row,) = wanted(season(6, matches=(5,), pre=5))

    assert row[0] == CURVE.early
    assert row[2] == pytest.approx((CURVE.early + CURVE.late) / 2)
    assert row[4] == CURVE.late


def test_the_way_to_a_peak_and_from_it():
    (row,) = wanted(season(14, matches=range(14), high=(7,)))

    assert row[2] == CURVE.usual
    assert row[3:6] == [CURVE.run_in] * 3
    assert row[6:8] == [CURVE.last, CURVE.peak]
    assert row[8:10] == [CURVE.after] * 2
    assert row[10] == CURVE.usual


@pytest.mark.parametrize(("free", "built_up"), [(3, None), (4, range(2, 6))])
def test_four_weeks_without_a_match_are_a_small_pre_season(free, built_up):
    weeks = [*range(2), *range(2 + free, 9)]

    assert build_up(season(9, matches=weeks), 3) == built_up


def test_a_week_counts_by_its_most_important_match():
    day = FIRST_MONDAY + dt.timedelta(days=2)
    pair = [
        Fixture(date=day, priority=Priority.LOW),
        Fixture(date=day + dt.timedelta(days=3), priority=Priority.HIGH),
    ]

    assert Rates().week(make_season(2, fixtures=pair).weeks[0]) == Rates().high
