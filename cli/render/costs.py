"""Costs in units a person can hold on to."""

from optimiser.response.readiness import UNITS


def points(cost: int) -> str:
    """Return a signed cost in readiness points, exactly, so that sums can be checked."""
    told = f"{cost / UNITS:+.4f}".rstrip("0").rstrip(".")
    return "0" if told in ("+0", "-0") else told
