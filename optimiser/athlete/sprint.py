"""Sprints: one curve from split times to top speed.

Speed grows as ``v(t) = vmax (1 - exp(-t / tau))``. It describes a full effort from a standing
start up to top speed, not the fading afterwards.
"""

from collections.abc import Sequence
from math import log1p

import numpy as np
import numpy.typing as npt
from pydantic import Field

from optimiser.domain.strict import Strict

Array = npt.NDArray[np.float64]
NO_SPRINT = "splits must show speed that rises and levels off; check the times"


class SprintFit(Strict):
    """An athlete's curve.

    Parameters
    ----------
    vmax
        Top speed, in m/s.
    tau
        Time constant, in s; first acceleration is ``vmax / tau``.
    t0
        Constant added to every predicted time, in s; 0 if it was not fitted.
    rms
        Root mean square of the residuals, in s.
    residuals
        Predicted minus measured time of each split, in s.
    """

    vmax: float = Field(gt=0)
    tau: float = Field(gt=0)
    t0: float = 0.0
    rms: float = Field(default=0.0, ge=0)
    residuals: tuple[float, ...] = ()


def time_at(metres: npt.ArrayLike, vmax: float, tau: float) -> Array:
    """Return time in s to cover distances in m; the shape of ``metres``.

    By Newton's method, from the curve above integrated over time.

    Raises
    ------
    ValueError
        If ``vmax`` or ``tau`` is not above 0, or a distance is negative.

    References
    ----------
    Furusawa, Hill and Parkinson (1927), Proceedings of the Royal Society B 102: 29-42.
    """
    d = _checked(metres, vmax, tau)
    # Distance is convex in time and this start lies late, so every step approaches from above.
    t = d / vmax + tau
    for _ in range(60):
        speed = vmax * -np.expm1(-t / tau)
        over = vmax * (t + tau * np.expm1(-t / tau)) - d
        before = t
        t = np.maximum(t - np.divide(over, speed, out=np.zeros_like(t), where=speed > 0), 0)
        if np.array_equal(t, before):
            break
    return t


def distance_to(fraction: float, vmax: float, tau: float) -> float:
    """Return the distance in m at which ``fraction`` of top speed is reached.

    Raises
    ------
    ValueError
        If ``fraction`` lies outside 0 to below 1, or ``vmax`` or ``tau`` is not above 0.

    References
    ----------
    ``vmax tau (-ln(1 - q) - q)``, from the curve above.
    """
    _checked(0.0, vmax, tau)
    if not 0 <= fraction < 1:
        raise ValueError(f"fraction must lie in 0 to below 1 (got {fraction:g})")
    return vmax * tau * (-log1p(-fraction) - fraction)


def fit_splits(
    metres: Sequence[float], seconds: Sequence[float], *, free_start: bool = False
) -> SprintFit:
    """Fit the curve to split times by least squares on time.

    Means of national teams leave about 0.01 s (root mean square); hand timing leaves more. A
    start through timing gates needs ``free_start``, or about 0.3 s added to every split.

    Parameters
    ----------
    metres
        Distances from the start, rising; at least two, or three with ``free_start``.
    seconds
        Time at each, rising.
    free_start
        Also fit a constant added to every time (t0).

    Raises
    ------
    ValueError
        If there are too few splits, they do not rise, or no such curve fits them.

    References
    ----------
    Samozino et al. (2016), Scandinavian Journal of Medicine and Science in Sports 26: 648-658;
    start correction: Vescovi and Jovanovic (2021), Frontiers in Sports and Active Living 3.
    """
    d, t = _splits(metres, seconds, 3 if free_start else 2)
    start = np.array([1.1 * float(np.max(np.diff(d, prepend=0) / np.diff(t, prepend=0))), 1.0, 0.0])
    try:
        found = _least_squares(start, d, t, free=3 if free_start else 2)
    except np.linalg.LinAlgError:
        raise ValueError(NO_SPRINT) from None
    vmax, tau, t0 = (float(value) for value in found)
    if not (0.05 < tau < 10 and vmax < 20):
        raise ValueError(NO_SPRINT)
    residuals = time_at(d, vmax, tau) + t0 - t
    rms = float(np.sqrt(np.mean(residuals**2)))
    return SprintFit(vmax=vmax, tau=tau, t0=t0, rms=rms, residuals=tuple(map(float, residuals)))


def _least_squares(start: Array, d: Array, t: Array, free: int) -> Array:
    """Return the (vmax, tau, t0) of least squared error; the first ``free`` of them move.

    Levenberg-Marquardt: a step that does not help is retried shorter.
    """
    best, damping = start, 1e-3
    error = time_at(d, best[0], best[1]) + best[2] - t
    for _ in range(200):
        slopes = _slopes(d, best[0], best[1])[:, :free]
        normal = slopes.T @ slopes
        step = np.zeros(3)
        step[:free] = np.linalg.solve(
            normal + damping * np.diag(np.diag(normal)), -slopes.T @ error
        )
        trial = best + step
        if trial[:2].min() <= 1e-3:
            damping *= 10
            continue
        after = time_at(d, trial[0], trial[1]) + trial[2] - t
        if after @ after > error @ error:
            damping *= 10
            continue
        best, error, damping = trial, after, damping / 10
        if np.abs(step).max() < 1e-12:
            break
    return best


def _slopes(d: Array, vmax: float, tau: float) -> Array:
    """Return how predicted times move with vmax, tau and t0; shape ``(splits, 3)``."""
    t = time_at(d, vmax, tau)
    left = np.exp(-t / tau)
    speed = vmax * (1 - left)
    by_tau = -vmax * (left * (1 + t / tau) - 1) / speed
    return np.column_stack([-d / vmax / speed, by_tau, np.ones_like(d)])


def _checked(values: npt.ArrayLike, vmax: float, tau: float) -> Array:
    if not (0 < vmax < float("inf") and 0 < tau < float("inf")):
        raise ValueError(f"vmax and tau must be above 0 (got {vmax:g} and {tau:g})")
    array = np.asarray(values, dtype=np.float64)
    if not np.all(array >= 0):
        raise ValueError("times and distances must be 0 or more")
    return array


def _splits(metres: Sequence[float], seconds: Sequence[float], fewest: int) -> tuple[Array, Array]:
    if len(metres) != len(seconds) or len(metres) < fewest:
        raise ValueError(
            f"there must be at least {fewest} splits, each with a time "
            f"(got {len(metres)} distances and {len(seconds)} times)"
        )
    d, t = np.array(metres, dtype=np.float64), np.array(seconds, dtype=np.float64)
    rising = np.all(np.diff(d, prepend=0) > 0) and np.all(np.diff(t, prepend=0) > 0)
    if not (rising and np.isfinite(d).all() and np.isfinite(t).all()):
        raise ValueError("distances and times must both rise from split to split")
    return d, t
