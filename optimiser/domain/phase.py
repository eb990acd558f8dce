"""A phase of the season."""

from enum import StrEnum


class Phase(StrEnum):
    """A part of the year."""

    OFF = "off-season"
    PRE = "pre-season"
    IN = "in-season"
