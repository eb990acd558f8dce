"""What follows from a sprint's curve and no card needs: share of top speed, force and power."""

from math import exp

import numpy as np
import numpy.typing as npt

from optimiser.athlete.sprint import Array, time_at
from optimiser.domain.strict import Strict


def speed_at(seconds: npt.ArrayLike, vmax: float, tau: float) -> Array:
    """Return speed in m/s at times in s since the start; the shape of ``seconds``.

    References
    ----------
    Furusawa, Hill and Parkinson (1927), Proceedings of the Royal Society B 102: 29-42.
    """
    t = np.asarray(seconds, dtype=float)
    return vmax * -np.expm1(-t / tau)


def distance_at(seconds: npt.ArrayLike, vmax: float, tau: float) -> Array:
    """Return distance in m covered by times in s; the shape of ``seconds``.

    As `speed_at`, integrated over time.
    """
    t = np.asarray(seconds, dtype=float)
    return vmax * (t + tau * np.expm1(-t / tau))


def fraction_at(metres: float, vmax: float, tau: float) -> float:
    """Return the share of top speed reached after ``metres``; the inverse of `distance_to`."""
    return 1 - exp(-float(time_at(metres, vmax, tau)) / tau)


class ForceVelocity(Strict):
    """Horizontal force-velocity line of a sprint.

    Parameters
    ----------
    f0
        Force at rest, in N.
    v0
        Speed at which force is 0, in m/s.
    power
        Highest power, in W: ``f0 * v0 / 4``.
    """

    f0: float
    v0: float
    power: float


def force_velocity(vmax: float, tau: float, mass_kg: float, drag: float = 0.0) -> ForceVelocity:
    """Return the force-velocity line of a curve.

    Without drag the line is exact: ``m vmax / tau`` and ``vmax``. With it a line is fitted to
    force over speed in the first 6 s; another stretch moves the result by about 0.5 %.

    Parameters
    ----------
    vmax, tau
        The curve.
    mass_kg
        Body mass.
    drag
        Air drag over speed squared, in kg/m, from `air_drag`.

    Raises
    ------
    ValueError
        If ``vmax``, ``tau`` or ``mass_kg`` is not above 0, or ``drag`` is negative.

    References
    ----------
    Samozino et al. (2016), Scandinavian Journal of Medicine and Science in Sports 26: 648-658.
    """
    t = np.arange(0, 6.005, 0.01)
    speed = speed_at(t, vmax, tau)
    if not mass_kg > 0 or not drag >= 0:
        raise ValueError(f"mass must be above 0 and drag not below (got {mass_kg:g}, {drag:g})")
    force = mass_kg * vmax / tau * np.exp(-t / tau) + drag * speed**2
    slope, f0 = (float(value) for value in np.polyfit(speed, force, 1))
    v0 = -f0 / slope
    return ForceVelocity(f0=f0, v0=v0, power=f0 * v0 / 4)


def air_drag(height_m: float, mass_kg: float, celsius: float = 15.0, torr: float = 760.0) -> float:
    """Return air drag over speed squared, in kg/m, in still air.

    Parameters
    ----------
    height_m, mass_kg
        Of the athlete.
    celsius, torr
        Of the air.

    Raises
    ------
    ValueError
        If height, mass, pressure or absolute temperature is not above 0.

    References
    ----------
    Arsac and Locatelli (2002), Journal of Applied Physiology 92(5): 1781-1788 (from memory).
    """
    if not (height_m > 0 and mass_kg > 0 and torr > 0 and celsius > -273):
        raise ValueError("height, mass, pressure and absolute temperature must be above 0")
    density = 1.293 * torr / 760 * 273 / (273 + celsius)
    area: float = 0.2025 * height_m**0.725 * mass_kg**0.425 * 0.266
    return 0.5 * density * area * 0.9
