"""Resisted sprints: how much a load slows an athlete, and the load for a wanted loss.

Top speed falls in a straight line with load: ``v = v0 (1 - load / L0)``, so the share of speed
lost is ``load / L0``. Loads are in per cent of body mass. Friction of the surface is inside L0:
a line from one surface does not hold on another.
"""

from collections.abc import Sequence

import numpy as np
from pydantic import Field

from optimiser.domain.strict import Strict

#: Load at which top speed reaches 0, in per cent of body mass, if the athlete has no test: the
#: line through the group means of Cahill et al. (2020), Journal of Strength and Conditioning
#: Research 34(10): 2751-2759, boys on artificial turf.
USUAL_L0 = 177.0


class LoadVelocity(Strict):
    """An athlete's line.

    Parameters
    ----------
    v0
        Speed without load, in m/s; None if the line came from losses.
    slope
        Change of speed for one per cent of body mass: m/s, or share of ``v0`` without it.
    zero_load
        Load at which speed reaches 0 (L0), in per cent of body mass.
    r
        Correlation of the points with the line; None for fewer than three.
    """

    v0: float | None
    slope: float = Field(lt=0)
    zero_load: float = Field(gt=0)
    r: float | None = None


def fit_losses(loads: Sequence[float], losses: Sequence[float]) -> LoadVelocity:
    """Fit the line through the origin to speed losses under one or more loads.

    Parameters
    ----------
    loads
        In per cent of body mass, above 0.
    losses
        Loss of top speed, in per cent of the free one.

    Raises
    ------
    ValueError
        If there is no point, a load is not above 0 or a loss lies outside 0 to 100.

    References
    ----------
    Cahill et al. (2020), Journal of Strength and Conditioning Research 34(10): 2751-2759.
    """
    _check_points(loads, losses, "losses")
    if not loads or min(loads) <= 0:
        raise ValueError(f"loads must be above 0 % of body mass (got {list(loads)})")
    if not all(0 < loss < 100 for loss in losses):
        raise ValueError(f"losses must lie between 0 and 100 % (got {list(losses)})")
    x, y = np.array(loads, dtype=float), np.array(losses, dtype=float) / 100
    slope = float(x @ y / (x @ x))
    return LoadVelocity(v0=None, slope=-slope, zero_load=1 / slope)


def load_for(loss: float, zero_load: float = USUAL_L0) -> float:
    """Return the load, in per cent of body mass, that costs ``loss`` per cent of top speed.

    Raises
    ------
    ValueError
        If ``loss`` lies outside 0 to below 100 or ``zero_load`` is not above 0.

    References
    ----------
    The line above; load and loss are proportional.
    """
    if not 0 <= loss < 100:
        raise ValueError(f"loss must lie in 0 to below 100 % (got {loss:g})")
    if not zero_load > 0:
        raise ValueError(f"zero_load must be above 0 % of body mass (got {zero_load:g})")
    return loss / 100 * zero_load


def _check_points(loads: Sequence[float], values: Sequence[float], what: str) -> None:
    if len(loads) != len(values):
        raise ValueError(f"loads and {what} must pair up (got {len(loads)} and {len(values)})")
    if not np.all(np.isfinite([*loads, *values])):
        raise ValueError(f"loads and {what} must be finite numbers")
