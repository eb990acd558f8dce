"""What the hours of a day leave room for."""

from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import permutations
from typing import NamedTuple

from optimiser.days.day import Day, Window, minutes_of
from optimiser.days.practice import Practices
from optimiser.days.spacing_settings import DaySettings

#: Starts are on full five minutes.
STEP = 5
SCHOOL_DAYS = 5


class LoadRates(NamedTuple):
    """AU a minute of the hardest work of each place."""

    field: float = 0.0
    gym: float = 0.0


class Holds(NamedTuple):
    """Which sessions a day can hold: one of each place, and both of them."""

    field: bool
    gym: bool
    both: bool


class HoursWanted(NamedTuple):
    """Something to be given hours; ``at`` is its start where that is given."""

    thing: str
    minutes: int
    window: Window
    at: int | None = None


def day_holds(
    day: Day, settings: DaySettings, practices: Practices, practised: bool, rates: LoadRates
) -> Holds:
    """Return which sessions of usual length a day can hold.

    Parameters
    ----------
    practised
        True if practice is on that day too.
    """
    usual = (minutes_of(settings.earliest), minutes_of(settings.latest))
    window = day.window if day.hard and day.window else usual
    school = settings.school if day.index < SCHOOL_DAYS else None
    given = practices.starts.get(day.index)
    practice = HoursWanted("practice", practices.minutes, usual, given) if practised else None
    spent = (practices.minutes, practices.load) if practised else (0, 0)

    def able(*places: str) -> bool:
        minutes = settings.room_minutes * len(places)
        work = min(settings.room_minutes, settings.room_work)
        load = sum(work * getattr(rates, place) for place in places)
        rest = settings.day_minutes - spent[0], settings.most_load(day.until) - spent[1]
        if minutes > max(0, rest[0]) or load > max(0, rest[1]):
            return False
        starts = {place: settings.given(place) for place in ("field", "gym")}
        asked = [
            HoursWanted(
                place, settings.room_minutes, window, None if at is None else minutes_of(at)
            )
            for place, at in starts.items()
            if place in places
        ]
        lessons = None if school is None else (minutes_of(school[0]), minutes_of(school[1]))
        return fits(tuple(asked), practice, settings, lessons, practices.within)

    return Holds(able("field"), able("gym"), able("field", "gym"))


@lru_cache(maxsize=4096)
def fits(
    sessions: tuple[HoursWanted, ...],
    practice: HoursWanted | None,
    settings: DaySettings,
    lessons: Window | None,
    within: bool,
) -> bool:
    """Tell whether hours can be found for everything.

    Every order is tried, each thing as early as the ones before it let it: whatever is possible in
    an order is possible so.
    """
    if practice and within and any(each.thing == "field" for each in sessions):
        return _joined(sessions, practice, settings, lessons)
    things = [*sessions, *([practice] if practice else [])]
    return any(_in_order(order, settings, lessons) for order in permutations(things))


def _joined(
    sessions: tuple[HoursWanted, ...],
    practice: HoursWanted,
    settings: DaySettings,
    lessons: Window | None,
) -> bool:
    """Tell whether hours can be found where field work is the first part of practice."""
    field = next(each for each in sessions if each.thing == "field")
    gym = [each for each in sessions if each.thing == "gym"]
    window = max(field.window[0], practice.window[0]), min(field.window[1], practice.window[1])
    if practice.at is not None:
        window = field.window
    joint = HoursWanted(
        "joint",
        max(field.minutes, practice.minutes),
        window,
        practice.at if field.at is None else field.at,
    )
    if None not in (practice.at, field.at) and practice.at != field.at:
        return False
    return any(_in_order(order, settings, lessons) for order in permutations([joint, *gym]))


def _in_order(order: Iterable[HoursWanted], settings: DaySettings, lessons: Window | None) -> bool:
    done: list[tuple[HoursWanted, int]] = []
    for asked in order:
        start = _start(asked, done, settings, lessons)
        if start is None:
            return False
        done.append((asked, start))
    return True


def _start(
    asked: HoursWanted,
    done: Sequence[tuple[HoursWanted, int]],
    settings: DaySettings,
    lessons: Window | None,
) -> int | None:
    """Return the earliest start after what is done; None if there is none."""
    soonest = max(
        (at + each.minutes + _gap(each, settings) for each, at in done), default=asked.window[0]
    )
    first, last = asked.window
    if asked.thing == "practice" and asked.at is not None:
        return asked.at if not done or soonest <= asked.at else None
    if asked.at is not None:
        clear = lessons is None or not _meets(asked, asked.at, lessons)
        in_time = soonest <= asked.at if done else True
        return asked.at if clear and in_time and _legs(asked) else None
    start = -(-max(first, soonest) // STEP) * STEP
    if lessons and _meets(asked, start, lessons):
        start = -(-lessons[1] // STEP) * STEP
    closes = minutes_of(settings.closes)
    return start if start <= last and start + asked.minutes <= closes else None


def _legs(asked: HoursWanted) -> bool:
    return True if asked.at is None else asked.window[0] <= asked.at <= asked.window[1]


def _gap(before: HoursWanted, settings: DaySettings) -> int:
    """Return the minutes wanted after something, before anything else on the day."""
    return 0 if before.thing == "field" else 60 * settings.same_day_hours


def _meets(asked: HoursWanted, start: int, lessons: Window) -> bool:
    return start < lessons[1] and start + asked.minutes > lessons[0]
