"""Weeks are counted from 0 inside and from 1 by people: here one becomes the other."""

from typing import NewType

#: A week as people count it, from 1.
WeekNumber = NewType("WeekNumber", int)


def number_of(index: int) -> WeekNumber:
    """Return a week as people count it."""
    return WeekNumber(index + 1)


def index_of(number: int) -> int:
    """Return the index of a week that people named."""
    return number - 1
