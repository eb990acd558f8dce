"""What a person asks of one week's days: sessions pinned, moved and kept away."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

Thing = Literal["field", "gym", "practice"]


@dataclass(frozen=True, slots=True)
class DayHold:
    """One demand.

    Parameters
    ----------
    thing
        What it speaks of.
    day
        0 Monday to 6 Sunday.
    on
        True if there must be one on that day, False if there must be none.
    start
        Minute of the day it must start at; None leaves it open.
    """

    thing: Thing
    day: int
    on: bool = True
    start: int | None = None


def over(stands: Iterable[DayHold], given: Sequence[DayHold]) -> tuple[DayHold, ...]:
    """Return what stands with something asked put over it: the later word on a day counts."""
    said = {(hold.thing, hold.day) for hold in given}
    kept = [hold for hold in stands if (hold.thing, hold.day) not in said]
    return (*kept, *given)
