"""Prilepin's table: how many lifts a session holds at a given intensity."""

from typing import Literal

from optimiser.domain.strict import Strict

Verdict = Literal["low", "fits", "high"]


class Zone(Strict):
    """One row of the table.

    Parameters
    ----------
    above
        Lowest percentage of the 1RM the row covers.
    reps
        Fewest and most repetitions a set.
    total
        Fewest and most lifts a session.
    optimum
        Best number of lifts a session.
    """

    above: float
    reps: tuple[int, int]
    total: tuple[int, int]
    optimum: int


class Check(Strict):
    """A session held against its row: repetitions a set, and lifts in all."""

    zone: Zone
    lifts: int
    reps: Verdict
    total: Verdict

    @property
    def optimal(self) -> bool:
        """Return True if both fit and the total is the row's optimum."""
        return self.reps == self.total == "fits" and self.lifts == self.zone.optimum


_ZONES = (
    Zone(above=90, reps=(1, 2), total=(4, 10), optimum=7),
    Zone(above=80, reps=(2, 4), total=(10, 20), optimum=15),
    Zone(above=70, reps=(3, 6), total=(12, 24), optimum=18),
    Zone(above=0, reps=(3, 6), total=(18, 30), optimum=24),
)


def zone_of(percent: float) -> Zone:
    """Return the row that ``percent`` of the 1RM falls in.

    Raises
    ------
    ValueError
        If ``percent`` lies outside 0 to 110.

    References
    ----------
    Prilepin's table as reproduced in several coaching texts; one copy misprints the last row.
    """
    if not 0 < percent <= 110:
        raise ValueError(f"percent must lie above 0 and up to 110 (got {percent:g})")
    return next(zone for zone in _ZONES if percent >= zone.above)


def check(percent: float, sets: int, reps: int) -> Check:
    """Hold ``sets`` x ``reps`` at ``percent`` of the 1RM against the table.

    Raises
    ------
    ValueError
        If ``percent`` is out of range, or ``sets`` or ``reps`` is below 1.

    References
    ----------
    As in `zone_of`.
    """
    if sets < 1 or reps < 1:
        raise ValueError(f"sets and reps must be at least 1 (got {sets} x {reps})")
    zone = zone_of(percent)
    lifts = sets * reps
    return Check(
        zone=zone, lifts=lifts, reps=_verdict(reps, zone.reps), total=_verdict(lifts, zone.total)
    )


def _verdict(value: int, limits: tuple[int, int]) -> Verdict:
    if value < limits[0]:
        return "low"
    return "high" if value > limits[1] else "fits"
