"""What matches and breaks leave of a week, seen by audits: day by day, apart from solver rows."""

from typing import NamedTuple

from constraints.spacing import Spacing
from optimiser.domain.season import Season

USUAL = Spacing()
#: Matches in seven days from which legs get touches at most: such a week is no measure of others.
TOUCHES = 3


class Left(NamedTuple):
    """What a week has room for.

    Parameters
    ----------
    short
        A short field and a short gym session.
    usual
        More than primers.
    hard
        A day for hard leg work.
    """

    short: bool
    usual: bool
    hard: bool


def left_of(season: Season, week: int) -> Left:
    """Return what is left of one week, its sessions spaced as usual."""
    here = season.weeks[week]
    held = USUAL.held(season, week)
    both = held.both if here.session_limit is None else min(held.both, here.session_limit)
    short = not here.closed and held.field > 0 and held.gym > 0 and both > 1
    return Left(short, short and held.calm, held.legs)


def crowd_of(season: Season, week: int) -> int:
    """Return the most matches in any seven days that end in a week."""
    days = [fixture.date.toordinal() for fixture in season.fixtures]
    monday = season.weeks[week].monday.toordinal()
    return max(sum(end - 6 <= day <= end for day in days) for end in range(monday, monday + 7))
