"""What follows from loaded runs and no card needs: a line from top speeds, and classes of loads."""

from collections.abc import Sequence
from typing import Literal

import numpy as np

from optimiser.athlete.sled import LoadVelocity

SledClass = Literal["light", "moderate", "heavy", "very heavy"]


def fit_speeds(loads: Sequence[float], speeds: Sequence[float]) -> LoadVelocity:
    """Fit the line to top speeds under several loads.

    Parameters
    ----------
    loads
        In per cent of body mass, at least two different ones.
    speeds
        Top speed of each run, in m/s.

    Raises
    ------
    ValueError
        If there are too few points, or speed does not fall with load.

    References
    ----------
    Cahill et al. (2019), Sports 7(5): each of 70 boys linear, r above 0.95.
    """
    if len(set(loads)) < 2:
        raise ValueError(f"loads must hold at least two different ones (got {list(loads)})")
    slope, start = (float(value) for value in np.polyfit(loads, speeds, 1))
    if slope >= 0:
        raise ValueError("speed must fall as load rises; check the order of the runs")
    spread = len(loads) > 2
    r = float(np.corrcoef(loads, speeds)[0, 1]) if spread else None
    return LoadVelocity(v0=start, slope=slope, zero_load=-start / slope, r=r)


def class_by_loss(percent: float) -> SledClass:
    """Return the class of a load given by the speed it costs, in per cent.

    Raises
    ------
    ValueError
        If ``percent`` is negative.

    References
    ----------
    Petrakos, Morin and Egan (2016), Sports Medicine 46(3): 381-400; cut-offs from memory.
    """
    if not percent >= 0:
        raise ValueError(f"percent must be 0 or more (got {percent:g})")
    names: tuple[SledClass, ...] = ("light", "moderate", "heavy", "very heavy")
    return names[sum(percent >= cut for cut in (10.0, 15.0, 30.0))]
