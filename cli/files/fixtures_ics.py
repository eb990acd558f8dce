"""Fixtures from a calendar file (iCalendar, RFC 5545)."""

import datetime as dt
from contextlib import suppress
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from icalendar import Calendar
from pydantic import ValidationError

from cli.files.errors import InputError
from cli.files.fixtures_found import Asked, Found
from cli.files.listed import Listed
from cli.files.read_text import read_text
from optimiser.domain.fixture import Fixture, Priority


def read_fixtures_ics(path: Path) -> list[Listed]:
    """Return one fixture an event, in the order written; cancelled events are left out.

    A date is the local one of the event's own time zone; a time in UTC is turned into that of
    the calendar (X-WR-TIMEZONE, which calendars that write UTC add) where it has one. Priority
    is a word among the categories, else 1-3 high, 4-6 medium, else low (1 is the highest, RFC
    5545, 3.8.1.9).

    Raises
    ------
    InputError
        With the number of the event, if anything in it cannot be used.
    """
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
    events = [
        (event, _zone(path, calendar))
        for calendar in calendars
        for event in calendar.walk("VEVENT")
    ]
    return [
        Listed(_fixture(path, f"event {number}", event, zone), f"event {number}")
        for number, (event, zone) in enumerate(events, 1)
        if str(event.get("STATUS", "")).upper() != "CANCELLED"
    ]


def find_fixtures_ics(path: Path, asked: Asked) -> Found:
    """Return the fixtures of a calendar and what was left out of it."""
    listed = read_fixtures_ics(path)
    return Found(listed, len(listed), "entry")


def _zone(path: Path, calendar: Any) -> ZoneInfo | None:
    name = str(calendar.get("X-WR-TIMEZONE", "")).strip()
    try:
        return ZoneInfo(name) if name else None
    except (LookupError, ValueError, OSError):
        raise InputError(
            path, "X-WR-TIMEZONE", "must be the name of a time zone", name, "write Europe/Dublin"
        ) from None


def _fixture(path: Path, where: str, event: Any, zone: ZoneInfo | None) -> Fixture:
    start = _start(path, where, event)
    if isinstance(start, dt.datetime) and zone and start.tzname() == "UTC":
        with suppress(OverflowError):
            start = start.astimezone(zone)
    if "RRULE" in event or "RDATE" in event:
        raise InputError(
            path, where, "must be one match", "a repeating event", "give each match its own event"
        )
    timed = start if isinstance(start, dt.datetime) else None
    try:
        return Fixture(
            date=timed.date() if timed else start,
            kickoff=timed.time() if timed else None,
            opponent=" ".join(str(event.get("SUMMARY", "")).split()),
            priority=_priority(event),
        )
    except ValidationError as error:
        raise InputError.from_pydantic(path, error, Fixture, where=where) from None


def _start(path: Path, where: str, event: Any) -> dt.date:
    try:
        start = event["DTSTART"].dt
    except (KeyError, AttributeError, ValueError):
        start = None
    if not isinstance(start, dt.date):
        raise InputError(
            path, where, "must have a start (DTSTART)", "none that can be read", "add the date"
        )
    return start


def _priority(event: Any) -> Priority:
    words = {word.strip().lower() for word in _categories(event)}
    named = next((priority for priority in Priority if priority.value in words), None)
    return named or _by_number(event.get("PRIORITY"))


def _categories(event: Any) -> list[str]:
    found = event.get("CATEGORIES", [])
    groups = found if isinstance(found, list) else [found]
    return [str(word) for group in groups for word in getattr(group, "cats", [group])]


def _by_number(value: Any) -> Priority:
    try:
        number = int(value)
    except (TypeError, ValueError):
        return Priority.LOW
    if 1 <= number <= 3:
        return Priority.HIGH
    return Priority.MEDIUM if 4 <= number <= 6 else Priority.LOW
