"""Costs of a stage in units a person can hold on to."""

from optimiser.readiness import UNITS

#: The searches whose cost is in parts of a readiness point.
IN_POINTS = ("doses", "whole season")


def cost_text(stage: str, cost: float) -> str:
    """Return the cost of a stage: whole emphasis points, or readiness points with one decimal."""
    return f"{cost / UNITS:.1f}" if stage in IN_POINTS else f"{cost:.0f}"


def points(cost: int) -> str:
    """Return a signed cost in readiness points, exactly, so that sums can be checked."""
    told = f"{cost / UNITS:+.4f}".rstrip("0").rstrip(".")
    return "0" if told in ("+0", "-0") else told
