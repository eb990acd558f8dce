"""The units in which rules are counted: as people say them, and what one is worth in a repair."""

from typing import NamedTuple


class Unit(NamedTuple):
    """One unit.

    Parameters
    ----------
    cost
        Of giving up one, in tenths of a minute of training: an engineering choice that only ranks
        repairs.
    said
        In the plural, where that is not its name.
    whole
        True if a demand in it is kept or not, so that nobody asks how far it was missed.
    """

    cost: int = 50
    said: str = ""
    whole: bool = False


UNITS = {
    "minutes": Unit(10, "min"),
    "AU": Unit(2),
    "AU a week": Unit(20),
    "sessions": Unit(200),
    "pieces": Unit(100),
    "doses": Unit(100, whole=True),
    "rungs": Unit(150),
    "weeks": Unit(150),
    "borders": Unit(200),
    "exposures": Unit(200, whole=True),
    "choices": Unit(200, whole=True),
    "low blocks": Unit(300, whole=True),
    "near_top_speed_m": Unit(5, "m near top speed"),
    "contacts": Unit(10),
    "hard_sets": Unit(50, "hard sets"),
}


def unit_of(name: str) -> Unit:
    """Return what is known of a unit; of one that is not listed, what is usual."""
    return UNITS.get(name, Unit())


def unit_said(name: str) -> str:
    """Return a unit as people say it, in the plural."""
    return unit_of(name).said or name


def in_units(by: int, unit: str) -> str:
    """Return ``1 session`` or ``2 sessions``."""
    said = unit_said(unit)
    return f"{by} {said.removesuffix('s') if by == 1 else said}"
