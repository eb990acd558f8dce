"""What the days and hours of a week leave room for, before its work is known."""

from collections.abc import Iterable, Iterator, Mapping, Sequence, Set
from itertools import combinations, pairwise, permutations
from typing import NamedTuple

from optimiser.days.day import Day, Kind, WeekOfDays, season_days
from optimiser.days.hours import STEP, Holds, LoadRates, day_holds
from optimiser.days.practice import Practices, week_practices
from optimiser.days.spacing_settings import DaySettings
from optimiser.domain.quality import Dose, Place
from optimiser.domain.season import Season, Week

#: Sessions of a week that keep some strength and some speed: one in the gym and one on the field.
SHORT = 2
PLACES: tuple[Place, ...] = ("field", "gym")

NO_PRACTICE = Practices()
NO_RATES = LoadRates()


class Room(NamedTuple):
    """What a week can hold.

    Parameters
    ----------
    field, gym
        Most sessions of each place.
    both
        Most sessions of both places together.
    hard
        True if there is a day for hard leg work.
    primer
        True if nothing but primers fits.
    load
        Most AU of own work on all the days together.
    alone
        True if primers share one day, and its minutes.
    """

    field: int
    gym: int
    both: int
    hard: bool
    primer: bool
    load: int
    alone: bool = False

    @property
    def short(self) -> bool:
        """Return True if a short field and a short gym session fit."""
        return self.field >= 1 and self.gym >= 1 and self.both >= SHORT

    @property
    def usual(self) -> bool:
        """Return True if there is room for more than primers."""
        return self.short and not self.primer

    def within(self, week: Week) -> "Room":
        """Return what is left of it beside the breaks of ``week``."""
        if week.closed:
            return Room(0, 0, 0, False, False, 0)
        if week.session_limit is None:
            return self
        both = min(self.both, week.session_limit)
        field, gym = min(self.field, both), min(self.gym, both)
        return self._replace(field=field, gym=gym, both=both)


def season_rooms(season: Season, settings: DaySettings) -> list[Room]:
    """Return the room of every week, practice and the hardest work of a season considered."""
    rates = LoadRates(*(_rate(season, place) for place in PLACES))
    return [
        week_room(days, settings, _practices(week, days), rates)
        for week, days in zip(season.weeks, season_days(season, settings), strict=True)
    ]


def rooms_left(season: Season) -> list[Room]:
    """Return what matches and breaks leave of every week, sessions spaced as usual."""
    found = zip(season_rooms(season, DaySettings()), season.weeks, strict=True)
    return [room.within(week) for room, week in found]


def _rate(season: Season, place: Place) -> float:
    """Return the AU a minute of the hardest work of a place."""
    here = [quality for quality in season.qualities if quality.place == place]
    return max(
        (
            quality.load(dose, rung) / quality.minutes(dose, rung)
            for quality in here
            for dose in list(Dose)[1:]
            for rung in range(len(quality.bands))
        ),
        default=0.0,
    )


def _practices(week: Week, days: WeekOfDays) -> Practices:
    return Practices() if week.practice is None else week_practices(week, days, week.practice)


def week_room(
    days: Iterable[Day],
    settings: DaySettings,
    practices: Practices = NO_PRACTICE,
    rates: LoadRates = NO_RATES,
) -> Room:
    """Return the room of a week.

    Days far enough apart hold any session that fits one of them, whatever stands on the others.
    So the best choice of such days is looked for, one with a field and a gym session first, and
    what each of them holds by its hours, its practice and its ceilings adds up. Weeks without a day
    for hard leg work count their open days instead, and weeks without an open day hold one field
    and one gym primer at most, on days of their own if there are two and together otherwise.
    """
    days = tuple(days)
    hard = [day for day in days if day.hard]
    usual = hard or [day for day in days if day.kind is Kind.OPEN]
    if not usual:
        return _primers(days, settings, practices, rates)
    held = {
        (day.index, practised): (
            day_holds(day, settings, practices, practised, rates),
            _left(day, settings, practices, practised),
        )
        for day in usual
        for practised in (False, True)
    }
    ways = [
        _of_days(chosen, held, settings.doubles, practices)
        for chosen in _apart(usual, settings.apart)
    ]
    best = max(ways, key=lambda room: (room.short, room.both, room.field + room.gym, room.load))
    return best._replace(hard=bool(hard))


def _primers(
    days: Sequence[Day], settings: DaySettings, practices: Practices, rates: LoadRates
) -> Room:
    """Return the room of a week that holds nothing but primers.

    Practice that has no other day is on some of theirs: on those that leave the most.
    """
    eves = [day for day in days if day.kind is Kind.PRIMER]
    given = {day.index for day in eves} & set(practices.fixed)
    free = [day.index for day in eves if day.index not in given]
    forced = min(_without_day(eves, practices), len(free))
    ways = [
        _on_eves(eves, given | set(taken), settings, practices, rates)
        for taken in combinations(free, forced)
    ]
    return max(ways, key=lambda room: (room.both, room.field + room.gym, not room.alone, room.load))


def _on_eves(
    eves: Sequence[Day],
    practised: Set[int],
    settings: DaySettings,
    practices: Practices,
    rates: LoadRates,
) -> Room:
    """Return what eves of matches hold beside practice on some of them."""
    short = settings.model_copy(update={"room_minutes": max(STEP, settings.primer_minutes)})
    held = [day_holds(day, short, practices, day.index in practised, rates) for day in eves]
    field, gym = any(each.field for each in held), any(each.gym for each in held)
    row = settings.session_days
    pairs = permutations(zip(eves, held, strict=True), 2)
    apart = any(
        one[1].field and other[1].gym and abs(one[0].index - other[0].index) >= row
        for one, other in pairs
    )
    shared = settings.doubles > 0 and any(each.field and each.gym for each in held)
    load = sum(
        _left(day, settings, practices, day.index in practised)
        for day, each in zip(eves, held, strict=True)
        if each.field or each.gym
    )
    both = 2 if apart or shared else int(field or gym)
    return Room(int(field), int(gym), both, False, bool(eves), load, bool(eves) and not apart)


def _left(day: Day, settings: DaySettings, practices: Practices, practised: bool) -> int:
    """Return the AU that practice leaves of a day's ceiling."""
    return max(0, settings.most_load(day.until) - practices.load * practised)


def _apart(days: Sequence[Day], apart: int) -> Iterator[tuple[Day, ...]]:
    """Yield every choice of days that cannot disturb each other."""
    for size in range(1, len(days) + 1):
        for chosen in combinations(days, size):
            if all(later.index - before.index >= apart for before, later in pairwise(chosen)):
                yield chosen


def _of_days(
    chosen: Sequence[Day],
    each_holds: Mapping[tuple[int, bool], tuple[Holds, int]],
    doubles: int,
    practices: Practices,
) -> Room:
    """Return the room of some days, from what each of them holds without and with practice."""
    everywhere = _needed(chosen, practices)
    found = [each_holds[day.index, everywhere or day.index in practices.fixed] for day in chosen]
    load = sum(left for holds, left in found if holds.field or holds.gym)
    return _added([holds for holds, _ in found], doubles, load)


def _added(held: Sequence[Holds], doubles: int, load: int) -> Room:
    field, gym = sum(each.field for each in held), sum(each.gym for each in held)
    any_ = sum(each.field or each.gym for each in held)
    both = any_ + min(doubles, sum(each.both for each in held))
    return Room(field, gym, both, True, False, load)


def _needed(chosen: Sequence[Day], practices: Practices) -> bool:
    """Tell whether practice that is placed must share days with sessions."""
    return _without_day(chosen, practices) > 0


def _without_day(chosen: Sequence[Day], practices: Practices) -> int:
    """Return how many practices that are placed have no day but those that are chosen."""
    taken = {day.index for day in chosen} | set(practices.fixed)
    left = sum(day not in taken for day in practices.order)
    return max(0, practices.count - len(practices.fixed) - left)
