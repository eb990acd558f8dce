"""Work beyond a dose is followed from week to week as doses are."""

import pytest
from made_seasons import make_season

from optimiser.domain.quality import Dose
from optimiser.domain.season import Surplus
from optimiser.response.readiness import surplus_points
from optimiser.review.score import quality_curve


@pytest.mark.parametrize("index", [0, 1])
def test_surplus_gives_and_tires_as_the_week_by_week_reckoning_says(plain_plan, index):
    plain = make_season(9)
    plan = plain_plan(plain, dose=Dose.TOUCH)
    season = plain.model_copy(
        update={"surplus": (Surplus(quality=index, week=2, gain=0.6, strain=0.9),)}
    )
    more = zip(quality_curve(season, plan, index), quality_curve(plain, plan, index), strict=True)
    told = surplus_points(index, season)

    assert told == pytest.approx([now - then for now, then in more])
    assert told[:2] == pytest.approx([0, 0])
    assert told[8] > 0 > told[2]
