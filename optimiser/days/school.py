"""Times of their own for those who are at school while their squad trains."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from optimiser.days.day import minutes_of
from optimiser.days.hours import SCHOOL_DAYS, STEP
from optimiser.days.spacing_settings import SCHOOL, DaySettings
from optimiser.days.week_plan import DayPlan, OwnTime, SessionPlan
from optimiser.domain.wording import listed

#: Asked whether what a kind of work needs is free: its use, day of the week, first and last minute.
Free = Callable[[str, int, int, int], bool]
#: Names told one by one.
MOST_NAMES = 4


def always(*_: object) -> bool:
    """Tell that everything is free."""
    return True


@dataclass(frozen=True)
class Pupils:
    """Those under 18 among adults, whose hours of school nobody has told.

    Their squad trains when it suits adults. What falls in hours of school they do before or after
    them, if the day has hours for it; team practice is where the team is, and has no other time.

    Parameters
    ----------
    names
        Of them.
    settings
        Of the squad's days.
    """

    names: tuple[str, ...]
    settings: DaySettings

    def own_times(self, days: Sequence[DayPlan], free: Free = always) -> tuple[OwnTime, ...]:
        """Return what of a week falls in hours of school, and when they do it instead.

        Parameters
        ----------
        free
            Asked of rooms and staff that are shared with others.
        """
        return tuple(own for day in days[:SCHOOL_DAYS] for own in self._on(day, free))

    def _on(self, day: DayPlan, free: Free) -> Iterator[OwnTime]:
        """Yield what of a day is in hours of school, each placed beside those before it."""
        practice = day.practice
        busy: list[_Taken] = []
        if practice and practice.start:
            minutes = practice.minutes or 0
            if _meets(practice.start, minutes):
                yield OwnTime(date=day.date, use="practice", squad=practice.start)
            else:
                busy.append(_Taken("practice", _number(practice.start), minutes))
        timed = [(_number(each.start), each) for each in day.sessions if each.start]
        busy += [
            _Taken(each.place, at, each.minutes)
            for at, each in timed
            if not _meets(each.start, each.minutes)
        ]
        for at, each in sorted(timed, key=lambda pair: pair[0]):
            if _meets(each.start, each.minutes):
                start = self._start(each, day.date.weekday(), busy, free)
                # what has no other time stays where it is, if the school agrees
                stands = at if start is None else start
                busy.append(_Taken(each.place, stands, each.minutes))
                told = None if start is None else f"{start // 60:02d}:{start % 60:02d}"
                yield OwnTime(date=day.date, use=each.place, squad=str(each.start), start=told)

    def _start(
        self, session: SessionPlan, day: int, busy: Sequence["_Taken"], free: Free
    ) -> int | None:
        """Return a start outside of school, after it first, that leaves the day's gaps."""
        settings, minutes = self.settings, session.minutes
        first = max(minutes_of(settings.earliest), _number(session.start_from or "00:00"))
        last = min(minutes_of(settings.latest), _number(session.start_by or "23:59"))
        before, after = map(minutes_of, SCHOOL)
        late = range(max(after, first), last + 1, STEP)
        early = range(min(before - minutes, last), first - 1, -STEP)
        starts: list[int] = [*late, *early]
        for start in starts:
            mine = _Taken(session.place, start, minutes)
            fits = mine.end <= minutes_of(settings.closes) and all(
                self._apart(mine, other) for other in busy
            )
            if fits and free(session.place, day, start, mine.end):
                return start
        return None

    def _apart(self, one: "_Taken", other: "_Taken") -> bool:
        """Tell whether two things leave the hours between them: field work may come just before."""
        first, then = sorted((one, other), key=lambda each: each.start)
        gap = 0 if first.use == "field" else 60 * self.settings.same_day_hours
        return first.end + gap <= then.start

    def notes(self, times: Sequence[OwnTime]) -> list[str]:
        """Return in words whose hours of school are kept free, and how."""
        some = self.names if len(self.names) <= MOST_NAMES else (*self.names[:MOST_NAMES], "others")
        begins, ends = (f"{time:%H:%M}" for time in SCHOOL)
        head = (
            f"Under 18: {listed(some)}, taken to be at school from {begins} to {ends}, Monday to "
            "Friday."
        )
        if not times:
            return [f"{head} Nothing of this week falls in them."]
        moved = [each for each in times if each.start]
        stuck = [each for each in times if not each.start]
        told = [head]
        if moved:
            told.append(f"Their own times: {'; '.join(own_words(each) for each in moved)}.")
        if stuck:
            told.append(
                f"In hours of school, and no other time for it: "
                f"{'; '.join(own_words(each) for each in stuck)}. Agree it with the school, or "
                "they are not there."
            )
        return [" ".join(told)]


class _Taken(NamedTuple):
    """Something with hours on a day."""

    use: str
    start: int
    minutes: int

    @property
    def end(self) -> int:
        """Return when it is over."""
        return self.start + self.minutes


def own_words(own: OwnTime) -> str:
    """Return one of them in words: "gym on Monday at 15:30 instead of 10:00"."""
    what = "team practice" if own.use == "practice" else own.use
    if own.start is None:
        return f"{what} on {own.date:%A} at {own.squad}"
    return f"{what} on {own.date:%A} at {own.start} instead of {own.squad}"


def _meets(start: str | None, minutes: int) -> bool:
    if start is None:
        return False
    first, last = map(minutes_of, SCHOOL)
    return _number(start) < last and _number(start) + minutes > first


def _number(text: str) -> int:
    hours, minutes = text.split(":")
    return 60 * int(hours) + int(minutes)
