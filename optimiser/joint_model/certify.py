"""A proof that a solver confirms which had no part in it."""

from optimiser.board.model import Model
from optimiser.engine.cp_sat_search import Effort, minimise

#: Share of the cost that a solver which works in floats may leave unproven.
FLOATS = 1e-4


def confirmed(model: Model, values: list[int], cost: int, effort: Effort) -> bool | None:
    """Tell whether CP-SAT, which works in whole numbers, finds nothing cheaper than HiGHS did.

    Parameters
    ----------
    values
        The solution that HiGHS takes for the best, and its cost.

    Returns
    -------
    bool or None
        None if the effort ended before it was sure.

    Raises
    ------
    KeyboardInterrupt
        On Ctrl-C.
    """
    again = minimise(model, effort, hint=dict(enumerate(values)))
    if again.cut_short:
        raise KeyboardInterrupt
    if again.objective is not None and again.objective < cost * (1 - FLOATS):
        return False
    return True if again.bound >= cost * (1 - FLOATS) else None
