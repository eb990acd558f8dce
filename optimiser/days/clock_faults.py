"""What the hours of a placed week do not keep, said day by day from its starts alone."""

from collections.abc import Iterator
from itertools import combinations
from typing import NamedTuple

from optimiser.days.day import Day, Kind, minutes_of
from optimiser.days.pieces import Held
from optimiser.days.placing import Placed, Task

SCHOOL_DAYS = 5


class Timed(NamedTuple):
    """Something on a day, from when to when, in minutes of the day."""

    thing: str
    start: int
    end: int


def clock_faults(task: Task, placed: Placed) -> list[str]:
    """Return every hour, ceiling and demand that is not kept, in words."""
    return [
        *(words for day in task.days for words in _of_day(task, placed, day)),
        *_asked(task, placed),
    ]


def _sessions(placed: Placed, day: int) -> dict[str, Held]:
    puts = (("field", placed.field), ("gym", placed.gym))
    return {
        place: put.spread.sessions[put.days.index(day)] for place, put in puts if day in put.days
    }


def _of_day(task: Task, placed: Placed, day: Day) -> Iterator[str]:
    name, sessions = f"{day.date:%A}", _sessions(placed, day.index)
    starts = placed.clock.starts.items()
    known: dict[str, int | None] = {place: at for (place, on), at in starts if on == day.index}
    minutes = {thing: held.minutes + task.extra for thing, held in sessions.items()}
    if day.index in placed.clock.practice:
        known["practice"] = placed.clock.practice[day.index]
        minutes["practice"] = task.practices.minutes
    for thing, start in known.items():
        if start is None:
            yield f"{name}: no hours are left for {_words(thing)}"
    things = [
        Timed(t, start, start + minutes[t]) for t, start in known.items() if start is not None
    ]
    for each in things:
        yield from (f"{name}: {words}" for words in _alone(task, day, each, sessions))
    for pair in combinations(sorted(things, key=lambda each: each.start), 2):
        words = _pair(task, *pair)
        if words:
            yield f"{name}: {words}"
    yield from (f"{name}: {words}" for words in _ceilings(task, placed, day, sessions))


def _words(thing: str) -> str:
    return "team practice" if thing == "practice" else f"the {thing} session"


def _alone(task: Task, day: Day, each: Timed, sessions: dict[str, Held]) -> Iterator[str]:
    settings, held = task.settings, sessions.get(each.thing)
    given = day.index in task.practised.starts if held is None else False
    if settings.school and day.index < SCHOOL_DAYS and not given:
        first, last = map(minutes_of, settings.school)
        if each.start < last and each.end > first:
            yield f"{_words(each.thing)} during school hours"
    if held and held.hard and day.window and not day.window[0] <= each.start <= day.window[1]:
        yield f"{_words(each.thing)} too near to a match for hard leg work"


def _pair(task: Task, first: Timed, second: Timed) -> str:
    """Return what is wrong between two things, the earlier one first."""
    hours = task.settings.same_day_hours
    if {first.thing, second.thing} == {"field", "practice"} and task.practices.within:
        return "" if first.start == second.start else "field work is not the first part of practice"
    least = 0 if first.thing == "field" else 60 * hours
    if second.start >= first.end + least:
        return ""
    return f"{_words(first.thing)} and {_words(second.thing)} less than {hours} h apart"


def _ceilings(task: Task, placed: Placed, day: Day, sessions: dict[str, Held]) -> Iterator[str]:
    if not sessions or day.kind is Kind.MATCH:
        return
    practised = day.index in placed.clock.practice
    each = task.practices
    sums = [
        (
            "min",
            sum(h.minutes + task.extra for h in sessions.values()),
            each.minutes,
            task.settings.day_minutes,
        ),
        (
            "AU",
            sum(h.load for h in sessions.values()),
            each.load,
            task.settings.most_load(day.until),
        ),
    ]
    for unit, own, practice, most in sums:
        total = own + practice * practised
        if own and total > most:
            near = f" {day.label}" if day.label in ("MD-1", "MD-2") and unit == "AU" else ""
            yield f"{total} {unit} with practice, {most} at most{' on' + near if near else ''}"


def _asked(task: Task, placed: Placed) -> Iterator[str]:
    has = {"field": placed.field.days, "gym": placed.gym.days, "practice": placed.clock.practice}
    for hold in task.holds:
        day = f"{task.days[hold.day].date:%A}"
        if hold.on and hold.day not in has[hold.thing]:
            yield f"{day}: {_words(hold.thing)} was asked for and is not on it"
        elif not hold.on and hold.day in has[hold.thing]:
            yield f"{day}: {_words(hold.thing)} stays, although it was to be kept off it"
