"""What work beyond the plan, earlier matches and the way to them cost."""

import datetime as dt

import pytest
from made_seasons import FIRST_MONDAY, make_season

from optimiser.domain.fixture import Fixture
from optimiser.domain.season import OutsideLoad
from optimiser.response.readiness import outside
from optimiser.review.score import match_cost_by_week

SATURDAY = FIRST_MONDAY + dt.timedelta(days=5)


@pytest.mark.parametrize(("days", "costs"), [(0, False), (1, True), (3, True), (-1, False)])
def test_work_of_a_match_day_costs_nothing_that_day_and_more_the_day_before(days, costs):
    plain = make_season(2, fixtures=[Fixture(date=SATURDAY)])
    load = OutsideLoad(date=SATURDAY - dt.timedelta(days=days), matches=0.5)
    season = plain.model_copy(update={"outside": (load,)})

    assert bool(outside(season)[0] > outside(plain)[0]) is costs
    assert outside(season) == pytest.approx(match_cost_by_week(season))


def test_the_hours_on_the_way_to_an_earlier_match_cost_too():
    def costs(hours):
        away = Fixture(date=FIRST_MONDAY + dt.timedelta(days=1), travel_hours=hours)
        season = make_season(2, fixtures=[away, Fixture(date=SATURDAY)])
        season = season.model_copy(update={"travel_fatigue": 0.5})
        assert outside(season) == pytest.approx(match_cost_by_week(season))
        return outside(season)[0]

    assert costs(0) < costs(4) < costs(8)
