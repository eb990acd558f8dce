"""What one kind of miss costs against another: one table, in readiness points."""

from typing import Annotated

from pydantic import Field

from optimiser.domain.fixture import Priority
from optimiser.domain.season import Week
from optimiser.domain.strict import Strict

Points = Annotated[float, Field(ge=0, le=1000)]
Weight = Annotated[int, Field(ge=0, le=1000)]


class Rates(Strict):
    """Exchange rates of the season cost, in readiness points of a week without a match.

    A point below target in the week of a high fixture counts eight times that, and so on, so at
    the defaults half a dose step off for one week costs what a twentieth of a point costs at a high
    fixture (0.4 of 8 points). Engineering choices.

    Parameters
    ----------
    band
        For one point of emphasis (0-100) off for one week, times the quality's weight.
    tolerance
        Points of emphasis off that cost nothing.
    amount
        For one dose step off the wanted amount for one week, beyond ``slack`` steps; wanted
        amounts lie between doses, so every dose has a cost and none is left to chance.
    slack
        Dose steps off that cost nothing.
    far
        How many times as much again each dose step costs beyond the first one off: work far from
        what the phase asks for must bring a lot.
    session
        For one field or gym session less than wanted in a week.
    change
        For one dose step up or down between like weeks of a block.
    block
        For opening a block.
    odd_week
        For each week by which a block is shorter or longer than ``usual_block``.
    usual_block
        Weeks of a block that costs nothing extra.
    rule
        For one unit of the price of a rule.
    below
        Readiness points under the target that cost nothing. Being above it never costs.
    peak, high, medium, low, plain
        Weight of a week by its most important fixture; ``plain`` has none. A fixture's own weight
        counts instead of its priority's.
    """

    band: Points = 0.03
    tolerance: int = Field(default=8, ge=0, le=100)
    amount: Points = 0.8
    slack: Points = 0.0
    far: Points = 2.0
    session: Points = 0.3
    change: Points = 1.0
    block: Points = 0.8
    odd_week: Points = 0.3
    usual_block: int = Field(default=4, ge=1, le=12)
    rule: Points = 0.1
    below: Points = 0.5
    peak: Weight = 16
    high: Weight = 8
    medium: Weight = 4
    low: Weight = 2
    plain: Weight = 1

    def week(self, week: Week) -> int:
        """Return the weight of a week."""
        own = (fixture.weight or self.weight(fixture.priority) for fixture in week.fixtures)
        return max(own, default=self.plain)

    def weight(self, priority: Priority) -> int:
        """Return the weight of a week with such a fixture and none more important."""
        kinds = {
            Priority.PEAK: self.peak,
            Priority.HIGH: self.high,
            Priority.MEDIUM: self.medium,
            Priority.LOW: self.low,
        }
        return kinds[priority]
