"""How many sessions a week has legal days for."""

from collections.abc import Iterable
from typing import NamedTuple

from optimiser.days.day import Day, Kind, season_days
from optimiser.days.settings import DaySettings
from optimiser.domain.season import Season, Week

#: Sessions of a week that keep some strength and some speed: one in the gym and one on the field.
SHORT = 2


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
    alone
        True if one day is all there is for primers, whose minutes a field and a gym one share.
    """

    each: int
    both: int
    hard: bool
    primer: bool
    alone: bool = False

    @property
    def short(self) -> bool:
        """Return True if a short field and a short gym session fit."""
        return self.each >= 1 and self.both >= SHORT

    @property
    def usual(self) -> bool:
        """Return True if there is room for more than primers."""
        return self.short and not self.primer

    def within(self, week: Week) -> "Room":
        """Return what is left of it beside the breaks of ``week``."""
        if week.closed:
            return Room(0, 0, False, False)
        if week.session_limit is None:
            return self
        both = min(self.both, week.session_limit)
        return self._replace(each=min(self.each, both), both=both)


def week_room(days: Iterable[Day], settings: DaySettings) -> Room:
    """Return the room of a week.

    Days far enough apart hold any session that fits one of them, whatever stands on the others;
    a field and a gym session may share a day. So their number is the limit, and no more has to
    be asked. Weeks without a day for hard leg work count their open days instead, and weeks
    without an open day hold one field and one gym primer at most, on days of their own if there
    are two and together otherwise.
    """
    days = tuple(days)
    hard = [day.index for day in days if day.hard]
    usual = hard or [day.index for day in days if day.kind is Kind.OPEN]
    if usual:
        each = most_apart(usual, settings.apart)
        return Room(each, each + min(each, settings.doubles), bool(hard), False)
    primers = sum(day.kind is Kind.PRIMER for day in days)
    both = min(2, primers + min(primers, settings.doubles))
    return Room(min(1, primers), both, False, primers > 0, primers == 1)


def rooms_left(season: Season) -> list[Room]:
    """Return what matches and breaks leave of every week, sessions spaced as usual."""
    settings = DaySettings()
    found = zip(season_days(season, settings), season.weeks, strict=True)
    return [week_room(days, settings).within(week) for days, week in found]


def most_apart(days: Iterable[int], apart: int) -> int:
    """Return how many of the rising ``days`` can be taken at least ``apart`` days apart."""
    count, last = 0, None
    for day in days:
        if last is None or day - last >= apart:
            count, last = count + 1, day
    return count
