"""How long the lines of a card take, by the same reckoning as the plan's minutes."""

from collections.abc import Iterable, Mapping
from math import ceil

from optimiser.athlete.card import Line
from optimiser.athlete.exercise import Exercise, Item
from optimiser.athlete.minutes import HEAVY, RISING_SET_S, set_seconds

#: Minutes are told in steps of this many.
STEP = 5


def line_seconds(line: Line, exercises: Mapping[str, Exercise], *, shortest: bool = False) -> float:
    """Return the seconds of a line's sets with their rests, rising sets before it counted in.

    Parameters
    ----------
    shortest
        True with the shortest rests, and none after the last set.
    """
    rest = line.rest_s and ((line.rest_s[0],) * 2 if shortest else line.rest_s)
    item = Item(
        exercise=line.key,
        reps=line.reps,
        seconds=line.seconds,
        metres=line.metres,
        lead_in=line.lead_in,
        rest=rest or ((0.0, 0.0) if shortest else None),
    )
    seconds = line.sets * set_seconds(item, exercises[line.key])
    seconds += RISING_SET_S * len(line.rising)
    return seconds - (rest[0] if rest and shortest else 0.0)


def rising_once(lines: Iterable[Line], *, first: bool = True) -> list[Line]:
    """Return lines with all rising sets before the first heavy lift, the heavy ones before others.

    Parameters
    ----------
    first
        False if there was a heavy lift before them.
    """
    made = []
    for line in lines:
        heavy = tuple(each for each in line.rising if each.percent >= HEAVY)
        made.append(line if first else line.model_copy(update={"rising": heavy}))
        first = first and not line.rising
    return made


def in_fives(seconds: float) -> int:
    """Return whole steps of five minutes that hold so many seconds."""
    return STEP * ceil(seconds / (60 * STEP) - 1e-9)
