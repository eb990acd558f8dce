"""The least difference at a match that two searches can tell from none."""

from optimiser.change.side_by_side import FixtureRow
from optimiser.domain.rates import Rates


def least_told(spare: float | None, rates: Rates, row: FixtureRow) -> float:
    """Return the least difference of a score, in points; 0 where nothing is known.

    Parameters
    ----------
    spare
        Points of season cost by which the best plans may differ from those at hand.
    """
    fixture = row.now or row.was
    if spare is None or fixture is None or row.after is None:
        return 0.0
    weight = rates.weight(fixture.priority)
    return 100 * spare / (max(1, weight) * max(1.0, row.after.target))
