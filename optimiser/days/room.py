"""How many sessions a week has legal days for."""

from collections.abc import Iterable
from typing import NamedTuple

from optimiser.days.day import Day, Kind
from optimiser.days.settings import DaySettings


class Room(NamedTuple):
    """What a week can hold, so that every plan inside it has legal days.

    Parameters
    ----------
    each
        Most field sessions, and most gym sessions.
    both
        Most of both together.
    hard
        True if there is a day for hard leg work.
    primer
        True if nothing but primers fits.
    """

    each: int
    both: int
    hard: bool
    primer: bool


def week_room(days: Iterable[Day], settings: DaySettings) -> Room:
    """Return the room of a week.

    Days far enough apart hold any session that fits one of them, whatever stands on the others;
    a field and a gym session may share a day. So their number is the limit, and no more has to
    be asked. Weeks without a day for hard leg work count their open days instead, and weeks
    without an open day hold one primer a day, one field and one gym primer at most.
    """
    days = tuple(days)
    hard = [day.index for day in days if day.hard]
    usual = hard or [day.index for day in days if day.kind is Kind.OPEN]
    if usual:
        each = most_apart(usual, settings.apart)
        return Room(each, each + min(each, settings.doubles), bool(hard), False)
    primers = sum(day.kind is Kind.PRIMER for day in days)
    return Room(min(1, primers), min(2, primers), False, primers > 0)


def most_apart(days: Iterable[int], apart: int) -> int:
    """Return how many of the rising ``days`` can be taken at least ``apart`` days apart."""
    count, last = 0, None
    for day in days:
        if last is None or day - last >= apart:
            count, last = count + 1, day
    return count
