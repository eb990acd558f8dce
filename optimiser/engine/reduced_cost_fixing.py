"""Reduced-cost fixing: choices that only dearer solutions make are left out of a search.

A variable away from the bound at which the linear relaxation has it costs its reduced cost for
every unit (Wolsey 1998, Integer Programming, section 7.9, from memory). What no solution under a
given cost can do need not be searched: the model that is left is often a third as large.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from optimiser.board.model import Model
from optimiser.engine.large_neighbourhood_search import Relaxation
from optimiser.engine.scaling import THOUSAND

#: How far from a bound a relaxed value may be that stands at it.
AT = 1e-6
#: Part of a reduced cost that tolerances may have made up.
SLIP = 1e-3


def without_dearer(model: Model, relaxed: Relaxation, under: float, keep: Sequence[int]) -> Model:
    """Return the model without the choices that every solution under a cost leaves alone.

    Parameters
    ----------
    relaxed
        The linear relaxation of the model.
    under
        Solutions of at least this cost may be lost.
    keep
        A solution that must remain one, one value a variable.
    """
    spare = (under - relaxed.bound) / THOUSAND
    if spare <= 0 or not relaxed.bound:
        return model
    lower, upper = np.array(model.lower), np.array(model.upper)
    size, known = len(lower), np.array(keep)
    each, value = relaxed.reduced[:size] * (1.0 - SLIP), relaxed.values[:size]
    counted = ~np.isin(np.arange(size), sorted(model.fine))
    steps = np.floor(spare / np.maximum(np.abs(each), AT))
    down = counted & (each > AT) & (value <= lower + AT)
    up = counted & (each < -AT) & (value >= upper - AT)
    high = np.where(down, np.maximum(np.minimum(upper, lower + steps), known), upper)
    low = np.where(up, np.minimum(np.maximum(lower, upper - steps), known), lower)
    return replace(model, lower=[int(each) for each in low], upper=[int(each) for each in high])
