"""The line above which readiness costs, after a peak."""

import pytest
from made_seasons import make_season

from optimiser.objective import Prices

PRICES = Prices(above=12, fall=10)


def season(*targets):
    made = make_season(len(targets))
    weeks = [
        week.model_copy(update={"target": target})
        for week, target in zip(made.weeks, targets, strict=True)
    ]
    return made.model_copy(update={"weeks": tuple(weeks)})


@pytest.mark.parametrize(
    ("targets", "line"),
    [
        ([50, 60, 70], [62, 72, 82]),
        ([95, 50, 50, 80], [107, 97, 87, 92]),
        ([95, 84, 60], [107, 97, 87]),
        ([60, 55, 52], [72, 67, 64]),
    ],
)
def test_it_stands_above_the_target_and_falls_no_faster_than_rest(targets, line):
    assert PRICES.ceilings(season(*targets)) == line
