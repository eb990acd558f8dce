"""A proof that a solver confirms which had no part in it."""

from optimiser.board.model import Model
from optimiser.engine.scip import least_cost

#: Share of the cost that solvers which work in floats may leave unproven.
FLOATS = 1e-4


def confirmed(model: Model, values: list[int], cost: int, seconds: float) -> bool | None:
    """Tell whether SCIP finds nothing cheaper than HiGHS did.

    Parameters
    ----------
    model
        As it was written, so that what searches leave out of it is put to the test as well.
    values
        The solution that HiGHS takes for the best, and its cost.

    Returns
    -------
    bool or None
        None if the time ended before it was sure.

    Raises
    ------
    KeyboardInterrupt
        On Ctrl-C.
    """
    again = least_cost(model, values, seconds)
    if again.cost is not None and again.cost < cost * (1 - FLOATS):
        return False
    return True if again.bound >= cost * (1 - FLOATS) else None
