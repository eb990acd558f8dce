"""How many minutes something shared is open to squads in a week."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from optimiser.days.day import DAY, Day, Kind, WeekOfDays, Window, minutes_of
from optimiser.days.hours import SCHOOL_DAYS, STEP
from optimiser.days.practice import Practices
from optimiser.days.shared import Pool
from optimiser.days.spacing_settings import DaySettings
from optimiser.domain.quality import Place

PLACES: tuple[Place, ...] = ("field", "gym")


@dataclass(frozen=True)
class SquadDays:
    """The days of one squad's week, on which it may use what is shared.

    Parameters
    ----------
    squad
        By number.
    """

    squad: int
    days: WeekOfDays
    settings: DaySettings
    practices: Practices


def open_minutes(pool: Pool, weeks: Sequence[SquadDays], closed: Collection[int] = ()) -> int:
    """Return the minutes a pool can be taken for in a week, one squad's minute counted as one.

    At any time it takes as many squads as it holds, and no more than could come then: on days
    when they train, between their first start and their close, outside of school. No timetable of
    the week takes more.

    Parameters
    ----------
    closed
        Days (0 Monday to 6 Sunday) on which it is closed.
    """
    return sum(_on_day(pool, weeks, day) for day in range(7) if day not in closed)


def _on_day(pool: Pool, weeks: Sequence[SquadDays], day: int) -> int:
    windows = [list(_windows(pool, week, day)) for week in weeks]
    taken = 0
    for start in range(0, DAY, STEP):
        end = start + STEP
        could = sum(any(first < end and start < last for first, last in each) for each in windows)
        taken += STEP * min(pool.holds, could)
    return taken


def _windows(pool: Pool, week: SquadDays, day: int) -> Iterator[Window]:
    """Yield when a squad could be in a pool on a day; windows may overlap."""
    here = week.days[day]
    for place in PLACES:
        if pool.takes(week.squad, place) and here.trainable:
            yield from _within(pool, _session_window(week.settings, place), week.settings, here)
    practices = week.practices
    if pool.takes(week.squad, "practice") and _practised(practices, here):
        given = practices.starts.get(day)
        if given is not None:
            yield max(given, pool.opens), min(given + practices.minutes, pool.closes)
        else:
            yield from _within(pool, _usual(week.settings), week.settings, here)


def _practised(practices: Practices, day: Day) -> bool:
    settled = len(practices.fixed) == practices.count
    days = practices.fixed if settled else practices.order
    return bool(practices.count) and day.index in days and day.kind is not Kind.MATCH


def _session_window(settings: DaySettings, place: Place) -> Window:
    given = settings.given(place)
    return _usual(settings) if given is None else (minutes_of(given), DAY)


def _usual(settings: DaySettings) -> Window:
    return minutes_of(settings.earliest), minutes_of(settings.closes)


def _within(pool: Pool, window: Window, settings: DaySettings, day: Day) -> Iterator[Window]:
    """Yield what of a window the pool's hours and school leave."""
    first, last = max(window[0], pool.opens), min(window[1], pool.closes)
    if settings.school is None or day.index >= SCHOOL_DAYS:
        yield first, last
        return
    lessons = minutes_of(settings.school[0]), minutes_of(settings.school[1])
    yield first, min(last, lessons[0])
    yield max(first, lessons[1]), last
