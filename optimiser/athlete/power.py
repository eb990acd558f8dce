"""Where on the load scale power is best trained."""

from typing import Literal

PowerZone = Literal["light", "middle", "heavy"]

#: Load of highest power, in per cent of the lift's own 1RM
#: (Cormie et al. 2007, Medicine and Science in Sports and Exercise 39(2): 340-349).
BEST_LOAD = {"jump_squat": 0.0, "squat": 56.0, "power_clean": 80.0}


def power_zone(percent: float) -> PowerZone:
    """Return the zone of a load: light suits jumps, middle squats, heavy cleans.

    Parameters
    ----------
    percent
        Load in per cent of the 1RM, 0 to 100.

    Raises
    ------
    ValueError
        If ``percent`` lies outside 0 to 100.

    References
    ----------
    Soriano et al. (2015), Sports Medicine 45(8): 1191-1205.
    """
    if not 0 <= percent <= 100:
        raise ValueError(f"percent must lie in 0 to 100 (got {percent:g})")
    if percent <= 30:
        return "light"
    return "middle" if percent < 70 else "heavy"
