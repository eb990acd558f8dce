"""Fixtures from a calendar file (iCalendar, RFC 5545)."""

import datetime as dt
from collections.abc import Sequence
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from icalendar import Calendar
from pydantic import ValidationError

from cli.files.errors import InputError
from cli.files.fixtures_doubts import doubts
from cli.files.fixtures_entries import (
    CalendarEntry,
    all_day,
    categories,
    latest,
    left_out_kind,
    name_of,
)
from cli.files.fixtures_found import NO_ZONE, FoundFixtures, LeftOut, ListFacts
from cli.files.fixtures_places import opponent_and_place
from cli.files.fixtures_repeats import days_of
from cli.files.listed import Listed
from cli.files.read_text import read_text
from optimiser.domain.fixture import Fixture, Priority

#: Calendars and categories named in a message.
NAMED = 12


def find_fixtures_ics(path: Path, asked: ListFacts) -> FoundFixtures:
    """Return the fixtures of a calendar and what was left out of it.

    A date is the local one of the event's own time zone; a time in UTC is turned into that of
    the calendar (X-WR-TIMEZONE, which calendars that write UTC add) where it has one. Priority
    is a word among the categories, else 1-3 high, 4-6 medium, else low (1 is the highest, RFC
    5545, 3.8.1.9). Of several entries with one UID the one of the highest SEQUENCE counts;
    cancelled and postponed ones, trainings, other occasions and stretches of days are left out,
    and what lasts all day where most entries have hours, unless it is said to be a match.

    Raises
    ------
    InputError
        With the number of the event, if anything in it cannot be used.
    """
    entries = _entries(path, asked)
    counted = latest(entries)
    told = _told(entries, counted, asked)
    matches = [entry for entry, out in zip(entries, told, strict=True) if out is None]
    listed = [item for entry in matches for item in _listed(path, entry, entries)]
    notices = [NO_ZONE] if any(_missed(entry) for entry in matches) else []
    notices += [] if asked.calendar or asked.match else doubts(matches)
    ranked = any(item.fixture.priority is not Priority.LOW for item in listed)
    left_out = [item for item in told if item]
    return FoundFixtures(listed, len(entries), "entry", left_out, notices, ranked)


def _entries(path: Path, asked: ListFacts) -> list[CalendarEntry]:
    events = [
        (event, ZoneInfo(asked.zone) if asked.zone else _zone(path, calendar), _name(calendar))
        for calendar in _calendars(path)
        for event in calendar.walk("VEVENT")
    ]
    found = [
        CalendarEntry(f"event {number}", event, zone, name)
        for number, (event, zone, name) in enumerate(events, 1)
    ]
    if asked.calendar and not any(_inside(entry, asked.calendar) for entry in found):
        names = {name for entry in found for name in (entry.calendar, *categories(entry.event))}
        must = "must have a calendar or category with the text asked for"
        do = f"there are: {', '.join(sorted(filter(None, names))[:NAMED]) or 'none with a name'}"
        raise InputError(path, "", must, asked.calendar, do)
    return found


def _inside(entry: CalendarEntry, calendar: str) -> bool:
    names = (entry.calendar, *categories(entry.event))
    return any(calendar.casefold() in name.casefold() for name in names)


def _calendars(path: Path) -> list[Any]:
    text = read_text(path)
    try:
        calendars: list[Any] = list(Calendar.from_ical(text, multiple=True))
    except (ValueError, LookupError, TypeError, AttributeError) as error:
        raise InputError(
            path, "", "must be a calendar (iCalendar)", str(error), "export the calendar again"
        ) from None
    if not calendars:
        raise InputError(
            path, "", "must be a calendar (iCalendar)", "no BEGIN:VCALENDAR", "export it again"
        )
    return calendars


def _zone(path: Path, calendar: Any) -> ZoneInfo | None:
    name = str(calendar.get("X-WR-TIMEZONE", "")).strip()
    try:
        return ZoneInfo(name) if name else None
    except (LookupError, ValueError, OSError):
        raise InputError(
            path, "X-WR-TIMEZONE", "must be the name of a time zone", name, "write Europe/Dublin"
        ) from None


def _name(calendar: Any) -> str:
    return " ".join(str(calendar.get("X-WR-CALNAME", "")).split())


def _told(
    entries: Sequence[CalendarEntry], counted: set[str], asked: ListFacts
) -> list[LeftOut | None]:
    """Return for each entry why it is left out; None for a match."""
    told = [_left_out(entry, counted, asked) for entry in entries]
    kept = [entry for entry, out in zip(entries, told, strict=True) if out is None]
    days = set() if asked.match else all_day(kept)
    return [
        LeftOut(entry.where, name_of(entry), "all-day") if entry.where in days else out
        for entry, out in zip(entries, told, strict=True)
    ]


def _left_out(entry: CalendarEntry, counted: set[str], asked: ListFacts) -> LeftOut | None:
    kind = "" if entry.where in counted else "older"
    if not kind and asked.calendar and not _inside(entry, asked.calendar):
        kind = "elsewhere"
    kind = kind or left_out_kind(entry)
    if not kind and asked.match.casefold() not in name_of(entry).casefold():
        kind = "other"
    return LeftOut(entry.where, name_of(entry), kind) if kind else None


def _missed(entry: CalendarEntry) -> bool:
    start = entry.start
    return isinstance(start, dt.datetime) and start.tzname() == "UTC" and entry.zone is None


def _listed(path: Path, entry: CalendarEntry, entries: Sequence[CalendarEntry]) -> list[Listed]:
    if entry.start is None:
        raise InputError(
            path,
            entry.where,
            "must have a start (DTSTART)",
            "none that can be read",
            "add the date",
        )
    days = days_of(path, entry, entries)
    return [Listed(_fixture(path, entry, day), entry.where) for day in days]


def _fixture(path: Path, entry: CalendarEntry, start: dt.date) -> Fixture:
    timed = start if isinstance(start, dt.datetime) else None
    opponent, venue = opponent_and_place(name_of(entry))
    try:
        return Fixture(
            date=timed.date() if timed else start,
            kickoff=timed.time() if timed else None,
            opponent=opponent,
            venue=venue,
            priority=_priority(entry.event),
        )
    except ValidationError as error:
        raise InputError.from_pydantic(path, error, Fixture, where=entry.where) from None


def _priority(event: Any) -> Priority:
    words = {word.strip().lower() for word in categories(event)}
    named = next((priority for priority in Priority if priority.value in words), None)
    return named or _by_number(event.get("PRIORITY"))


def _by_number(value: Any) -> Priority:
    try:
        number = int(value)
    except (TypeError, ValueError):
        return Priority.LOW
    if 1 <= number <= 3:
        return Priority.HIGH
    return Priority.MEDIUM if 4 <= number <= 6 else Priority.LOW
