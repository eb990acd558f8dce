"""What one kind of miss costs against another: one table, in readiness points."""

from optimiser.domain.strict import Strict
from optimiser.objective import Prices
from optimiser.readiness import UNITS


class Rates(Strict):
    """Exchange rates of the season cost, in readiness points of a week without a match.

    A point below target in the week of a high fixture counts eight times that, and so on
    (``prices``), so at the defaults one dose step too little for one week costs what a twentieth
    of a point costs at a high fixture beyond half a step (0.4 of 8 points). Engineering choices.

    Parameters
    ----------
    band
        For one point of emphasis (0-100) off for one week, times the quality's weight.
    amount
        For one dose step off the wanted amount for one week, beyond ``slack`` steps.
    slack
        Dose steps off that cost nothing: wanted amounts lie between doses.
    change
        For one dose step up or down between like weeks of a block.
    block
        For opening a block.
    odd_week
        For each week by which a block is shorter or longer than ``usual_block``.
    rule
        For one unit of the price of a rule.
    """

    band: float = 0.01
    amount: float = 0.8
    slack: float = 0.5
    change: float = 0.3
    block: float = 0.8
    odd_week: float = 0.2
    usual_block: int = 4
    rule: float = 0.1
    prices: Prices = Prices()


def units(points: float) -> int:
    """Return readiness points in the kernel's whole units."""
    return round(points * UNITS)
