"""What the days of an audited week hold by their hours: every start is tried."""

import datetime as dt
from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import combinations, permutations, product
from typing import TYPE_CHECKING, NamedTuple

from optimiser.domain.practice import PracticeWeek
from optimiser.domain.quality import Place

if TYPE_CHECKING:
    from constraints.spacing import Around, Spacing

#: Field, gym and all sessions, AU, and whether primers share a day.
Sums = tuple[int, int, int, int, bool]
EVERY = 5
#: Per cent of a usual practice by which one may be longer, before there is one more.
LONGER = 10
#: Days from which a match is too far off to mind, whatever hours are asked for.
NEAR = 10


class Slot(NamedTuple):
    """What is put on a day."""

    name: str
    start: int
    end: int


class TimetabledWeek:
    """Judges choices of days of one week by what hours, practice and ceilings leave."""

    def __init__(self, rule: "Spacing", around: "Around", legs: set[dt.date]) -> None:
        self.rule, self.around, self.legs = rule, around, legs
        self.week = around.weeks[0]
        self.usual = self.week.practice or PracticeWeek(sessions=0)
        self.free = self._free()
        self.count = self._count()
        self.given = self._given()
        self._known: dict[tuple[dt.date, bool, int], tuple[bool, bool, bool]] = {}

    # --- practice -----------------------------------------------------------------------------

    def _dates(self) -> list[dt.date]:
        return [self.week.monday + dt.timedelta(days=step) for step in range(7)]

    def _free(self) -> list[dt.date]:
        """Return the days on which the team could practise."""
        rests = [item for item in self.week.breaks if item.kind == "rest"]
        playing = {match.date for match in self.around.matches}
        return [
            date
            for date in self._dates()
            if date not in playing
            and not any(item.first <= date <= item.last for item in rests)
            and not self.week.closed
            and not self._travels(date)
        ]

    def _travels(self, date: dt.date) -> bool:
        return any(
            (match.date - date).days == 1 and match.travel_hours >= self.rule.travel_day_hours
            for match in self.around.matches
        )

    def _count(self) -> int:
        load, one = self.week.practice_load, self.usual.load(1)
        if not load or self.week.practice is None:
            return 0
        many = 1
        while one and 100 * load > (100 * many + LONGER) * one:
            many += 1
        return min(len(self.free), many)

    def _given(self) -> set[dt.date]:
        wanted = [day.number for day in self.usual.days]
        there = sorted(
            (date for date in self.free if date.weekday() in wanted),
            key=lambda date: wanted.index(date.weekday()),
        )
        return set(there[: self.count])

    @property
    def load(self) -> int:
        """Return the AU of one practice, rounded up."""
        return -(-self.week.practice_load // self.count) if self.count else 0

    @property
    def minutes(self) -> int:
        """Return the minutes of one practice."""
        return round(self.load / self.usual.rpe) if self.usual.rpe else round(self.usual.minutes)

    # --- choices of days ----------------------------------------------------------------------

    def held(self, chosen: Sequence[dt.date]) -> Sums:
        """Return what days far enough apart hold together."""
        others = [date for date in self.free if date not in chosen and date not in self.given]
        crowded = self.count - len(self.given) > len(others)
        held, load = [], 0
        for date in chosen:
            practised = crowded or date in self.given
            held.append(self._day(date, practised, self.rule.room_minutes))
            if any(held[-1]):
                load += max(0, self._ceiling(date) - self.load * practised)
        field, gym = sum(each[0] for each in held), sum(each[1] for each in held)
        single = sum(each[0] or each[1] for each in held)
        return (
            field,
            gym,
            single + min(self.rule.doubles, sum(each[2] for each in held)),
            load,
            False,
        )

    def primers(self, dates: Sequence[dt.date]) -> Sums:
        """Return what eves of matches hold: one primer a day, beside practice that must be there.

        Practice goes where it takes the least.
        """
        elsewhere = [date for date in self.free if date not in dates and date not in self.given]
        open_eves = [date for date in dates if date not in self.given]
        must = min(max(0, self.count - len(self.given) - len(elsewhere)), len(open_eves))
        found = [self._eves(dates, {*self.given, *busy}) for busy in combinations(open_eves, must)]
        return max(found, key=lambda held: (held[2], held[0] + held[1], not held[4], held[3]))

    def _eves(self, dates: Sequence[dt.date], busy: set[dt.date]) -> Sums:
        short = max(EVERY, self.rule.primer_minutes)
        held = {date: self._day(date, date in busy, short) for date in dates}
        field = any(each[0] for each in held.values())
        gym = any(each[1] for each in held.values())
        least = self.rule.session_days
        apart = any(
            held[one][0] and held[other][1] and abs((one - other).days) >= least
            for one, other in permutations(dates, 2)
        )
        spare = {d: max(0, self._ceiling(d) - self.load * (d in busy)) for d in dates}
        load = sum(spare[date] for date in dates if any(held[date]))
        shared = self.rule.doubles > 0 and any(each[0] and each[1] for each in held.values())
        both = 2 if apart or shared else int(field or gym)
        return int(field), int(gym), both, load, bool(dates) and not apart

    def _ceiling(self, date: dt.date) -> int:
        ahead = [(match.date - date).days for match in self.around.matches if match.date >= date]
        near = min(ahead, default=99)
        if near == 1:
            return self.rule.load_before_1
        return self.rule.load_before_2 if near == 2 else self.rule.day_load

    # --- hours --------------------------------------------------------------------------------

    def _day(self, date: dt.date, practised: bool, minutes: int) -> tuple[bool, bool, bool]:
        key = (date, practised, minutes)
        if key not in self._known:
            self._known[key] = (
                self._able(date, practised, minutes, ("field",)),
                self._able(date, practised, minutes, ("gym",)),
                self._able(date, practised, minutes, ("field", "gym")),
            )
        return self._known[key]

    def _able(
        self, date: dt.date, practised: bool, minutes: int, places: tuple[Place, ...]
    ) -> bool:
        spent, load = (self.minutes, self.load) if practised else (0, 0)
        rates = dict(self.around.rates)
        own = sum(min(minutes, self.rule.room_work) * rates[place] for place in places)
        if minutes * len(places) > max(0, self.rule.day_minutes - spent):
            return False
        if own > max(0, self._ceiling(date) - load):
            return False
        starts = [self._starts(date, place, minutes) for place in places]
        practices = self._practices(date) if practised else None
        return _possible(
            tuple(places),
            tuple(map(tuple, starts)),
            None if practices is None else tuple(practices),
            (minutes, self.minutes, 60 * self.rule.same_day_hours),
            self.usual.field == "within",
        )

    def _clock(self) -> list[int]:
        first, last = (at.hour * 60 + at.minute for at in (self.rule.earliest, self.rule.latest))
        return list(range(-(-first // EVERY) * EVERY, last + 1, EVERY))

    def _starts(self, date: dt.date, place: Place, minutes: int) -> list[int]:
        given = self.rule.field_at if place == "field" else self.rule.gym_at
        closes = self.rule.closes.hour * 60 + self.rule.closes.minute
        if given is None:
            starts = [start for start in self._clock() if start + minutes <= closes]
        else:
            starts = [given.hour * 60 + given.minute]
        if date in self.legs:
            near = self.around.matches
            near = tuple(match for match in near if abs((match.date - date).days) <= NEAR)
            starts = [s for s in starts if all(self.rule.clear(date, s, match) for match in near)]
        return [start for start in starts if not self._at_school(date, start, minutes)]

    def _practices(self, date: dt.date) -> list[int]:
        days = [day.number for day in self.usual.days]
        if self.usual.times and date.weekday() in days:
            at = self.usual.times[days.index(date.weekday()) if len(self.usual.times) > 1 else 0]
            return [at.hour * 60 + at.minute]
        closes = self.rule.closes.hour * 60 + self.rule.closes.minute
        return [
            start
            for start in self._clock()
            if start + self.minutes <= closes and not self._at_school(date, start, self.minutes)
        ]

    def _at_school(self, date: dt.date, start: int, minutes: int) -> bool:
        if self.rule.school is None or date.weekday() > 4:
            return False
        first, last = (at.hour * 60 + at.minute for at in self.rule.school)
        return start < last and start + minutes > first


@lru_cache(maxsize=4096)
def _possible(
    places: tuple[str, ...],
    starts: tuple[tuple[int, ...], ...],
    practices: tuple[int, ...] | None,
    lengths: tuple[int, int, int],
    within: bool,
) -> bool:
    """Tell whether some starts leave everything its room."""
    minutes, practice, apart = lengths
    if practices is None:
        return any(_fine([], pair, places, minutes, apart, within) for pair in product(*starts))
    return any(
        _fine([Slot("practice", at, at + practice)], pair, places, minutes, apart, within)
        for at in practices
        for pair in product(*starts)
    )


def _fine(
    taken: Iterable[Slot],
    starts: Sequence[int],
    places: Sequence[str],
    minutes: int,
    apart: int,
    within: bool,
) -> bool:
    spans = [*taken, *(Slot(p, s, s + minutes) for p, s in zip(places, starts, strict=True))]
    for before, after in permutations(spans, 2):
        if {before.name, after.name} == {"field", "practice"} and within:
            if before.start != after.start:
                return False
            continue
        wait = 0 if before.name == "field" else apart
        later = after.end + (0 if after.name == "field" else apart)
        if after.start < before.end + wait and before.start < later:
            return False
    return True
