"""Times of their own for those who are at school while their squad trains."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from optimiser.days.day import minutes_of
from optimiser.days.hours import SCHOOL_DAYS, STEP
from optimiser.days.spacing_settings import SCHOOL, DaySettings
from optimiser.days.week_plan import DayPlan, OwnTime
from optimiser.domain.wording import listed

#: Names told one by one.
MOST_NAMES = 4


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

    def own_times(self, days: Sequence[DayPlan]) -> tuple[OwnTime, ...]:
        """Return what of a week falls in hours of school, and when they do it instead."""
        return tuple(own for day in days[:SCHOOL_DAYS] for own in self._on(day))

    def _on(self, day: DayPlan) -> Iterator[OwnTime]:
        practice = day.practice
        in_school = bool(practice and _meets(practice.start, practice.minutes or 0))
        for each in day.sessions:
            if each.start and _meets(each.start, each.minutes):
                kept = None if in_school or not practice else practice
                busy = [(s.start, s.minutes) for s in day.sessions if s is not each]
                busy += [(kept.start, kept.minutes or 0)] if kept else []
                start = self._free(each.minutes, busy, each.start_from, each.start_by)
                yield OwnTime(date=day.date, use=each.place, squad=each.start, start=start)
        if practice and practice.start and in_school:
            yield OwnTime(date=day.date, use="practice", squad=practice.start)

    def _free(
        self,
        minutes: int,
        busy: Sequence[tuple[str | None, int]],
        start_from: str | None,
        start_by: str | None,
    ) -> str | None:
        """Return a start outside of school, after it first, that leaves the day's gaps."""
        settings = self.settings
        first = max(minutes_of(settings.earliest), _number(start_from) or 0)
        last = min(minutes_of(settings.latest), _number(start_by) or minutes_of(settings.latest))
        before, after = map(minutes_of, SCHOOL)
        late = range(max(after, first), last + 1, STEP)
        early = range(before - minutes, first - 1, -STEP)
        for start in (*late, *early):
            closes = start + minutes <= minutes_of(settings.closes)
            if closes and first <= start <= last and self._apart(start, minutes, busy):
                return f"{start // 60:02d}:{start % 60:02d}"
        return None

    def _apart(self, start: int, minutes: int, busy: Sequence[tuple[str | None, int]]) -> bool:
        """Tell whether a start leaves the hours between two things of one day."""
        gap = 60 * self.settings.same_day_hours
        others = [(at, length) for text, length in busy if (at := _number(text)) is not None]
        return all(start >= at + n + gap or start + minutes + gap <= at for at, n in others)

    def notes(self, times: Sequence[OwnTime]) -> list[str]:
        """Return in words whose hours of school are kept free, and how."""
        some = self.names if len(self.names) <= MOST_NAMES else (*self.names[:MOST_NAMES], "others")
        begins, ends = (f"{time:%H:%M}" for time in SCHOOL)
        head = (
            f"Under 18: {listed(some)}, taken to be at school from {begins} to {ends}, Monday to "
            f'Friday. [rules.spacing] school = ["{begins}", "{ends}"] keeps these hours free for '
            "the whole squad, other hours say what is so, [] that there are none."
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


def own_words(own: OwnTime) -> str:
    """Return one of them in words: "gym on Monday at 15:30 instead of 10:00"."""
    what = "team practice" if own.use == "practice" else own.use
    if own.start is None:
        return f"{what} on {own.date:%A} at {own.squad}"
    return f"{what} on {own.date:%A} at {own.start} instead of {own.squad}"


def _meets(start: str | None, minutes: int) -> bool:
    at = _number(start)
    first, last = map(minutes_of, SCHOOL)
    return at is not None and at < last and at + minutes > first


def _number(text: str | None) -> int | None:
    if text is None:
        return None
    hours, minutes = text.split(":")
    return 60 * int(hours) + int(minutes)
