"""The matches that leave a week little room."""

import datetime as dt
from collections.abc import Iterable

from optimiser.days.room import rooms_left
from optimiser.domain.season import Season
from optimiser.setup.matches import busiest_seven

#: Days before and after a week whose matches still take days from it.
BEFORE, AFTER = 7, 2


def crowding(season: Season, weeks: Iterable[int]) -> list[dt.date]:
    """Return the match days in and around those ``weeks`` (from 0) that they leave little room."""
    rooms, busy = rooms_left(season), busiest_seven(season)
    tight = [
        week
        for week in weeks
        if 0 <= week < len(rooms) and (busy[week] > 1 or not rooms[week].usual)
    ]
    found = set()
    for week in tight:
        monday = season.weeks[week].monday
        first, last = monday - dt.timedelta(BEFORE), monday + dt.timedelta(6 + AFTER)
        found |= {match.date for match in season.fixtures if first <= match.date <= last}
    return sorted(found)
