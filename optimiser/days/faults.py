"""What a placed week does not keep, said day by day."""

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise, product

from optimiser.days.day import Day, Kind, WeekOfDays
from optimiser.days.pieces import Held
from optimiser.days.spacing_settings import DaySettings

#: For each day its sessions, field first.
OnDays = dict[int, list[Held]]

REASONS = {
    Kind.MATCH: "on the day of a match",
    Kind.CLOSED: "on a day that is closed",
    Kind.TRAVEL: "on a day of travel",
    Kind.REST: "on a day of rest",
    Kind.RECOVERY: "so soon after a match",
}


def faults(days: WeekOfDays, held: OnDays, settings: DaySettings) -> list[str]:
    """Return every spacing that is not kept, in words."""
    found = [words for day in days for words in _of_day(day, held.get(day.index, []), settings)]
    found += _too_near(days, held, settings)
    doubles = sum(len(sessions) > 1 for sessions in held.values())
    if doubles > settings.doubles:
        found.append(f"{doubles} days with a field and a gym session, {settings.doubles} at most")
    return found


def _of_day(day: Day, sessions: Sequence[Held], settings: DaySettings) -> Iterator[str]:
    if not sessions:
        return
    if day.kind in REASONS:
        yield f"{day.date:%A}: a session {REASONS[day.kind]}"
    if any(session.hard for session in sessions) and not day.hard:
        yield (
            f"{day.date:%A}: hard leg work less than {settings.hours_since} h after or "
            f"{settings.hours_until} h before a match"
        )
    minutes = sum(session.minutes for session in sessions)
    above = any(session.above_touch for session in sessions)
    if day.kind is Kind.PRIMER and (above or minutes > settings.primer_minutes):
        yield (
            f"{day.date:%A}: more than a primer of {settings.primer_minutes} min of work the day "
            "before a match"
        )
    if any(not session.pieces for session in sessions):
        yield f"{day.date:%A}: a session without work"


def _too_near(days: WeekOfDays, held: OnDays, settings: DaySettings) -> Iterator[str]:
    hard = _days_with(held, lambda session: session.hard)
    jumps = _days_with(held, lambda session: session.jumps)
    speed = _days_with(held, lambda session: session.speed)
    for before, after in pairwise(hard):
        if 24 * (after - before) < settings.hard_hours:
            pair = _pair(days, before, after)
            yield f"{pair}: hard leg work less than {settings.hard_hours} h apart"
    for before, after in pairwise(jumps):
        if after - before < settings.jump_days:
            yield f"{_pair(days, before, after)}: jumps less than {settings.jump_days} days apart"
    for before, after in pairwise(sorted(held)):
        if after - before < settings.session_days:
            pair = _pair(days, before, after)
            yield f"{pair}: sessions less than {settings.session_days} days apart"
    for before, after in product(hard, speed):
        if 0 < after - before < settings.speed_days:
            yield f"{_pair(days, before, after)}: top speed too soon after hard leg work"


def _days_with(held: OnDays, mark: Callable[[Held], bool]) -> list[int]:
    return [day for day, sessions in sorted(held.items()) if any(map(mark, sessions))]


def _pair(days: WeekOfDays, before: int, after: int) -> str:
    return f"{days[before].date:%A} and {days[after].date:%A}"
