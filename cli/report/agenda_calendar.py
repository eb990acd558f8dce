"""Agendas of a club as calendars (iCalendar, RFC 5545)."""

import datetime as dt
import hashlib

from icalendar import Event

from cli.club_agenda import Agenda, AgendaEntry
from cli.report.calendar_file import add_events, new_calendar


def agenda_calendar(club: str, agenda: Agenda, now: dt.datetime) -> bytes:
    """Return an agenda as a calendar; times are those of whoever looks.

    Something keeps its UID when it is moved inside its week, and has the same one in the calendars
    of squad, room, coach and athlete.

    Parameters
    ----------
    now
        When it is written, with a time zone.
    """
    calendar = new_calendar("Club", f"{club}, {agenda.name}")
    add_events(calendar, (_event(club, agenda, entry) for entry in agenda.entries), now)
    return bytes(calendar.to_ical())


def _event(club: str, agenda: Agenda, entry: AgendaEntry) -> Event:
    event = Event()
    whole = "\x1f".join((club, *entry.key)).encode("utf-8", "surrogatepass")
    event.add("UID", f"{hashlib.sha256(whole).hexdigest()[:32]}@seasonwright")
    near = f" ({entry.label})" if entry.label else ""
    who = f"{entry.who}: " if agenda.kind in ("room", "person") else ""
    event.add("SUMMARY", f"{who}{entry.use.title()}{near}")
    event.add("DESCRIPTION", entry.what)
    if entry.where:
        event.add("LOCATION", ", ".join(entry.where))
    if entry.start is None:
        event.add("DTSTART", entry.date)
        event.add("DTEND", entry.date + dt.timedelta(days=1))
        return event
    event.add("DTSTART", _at(entry.date, entry.start))
    if entry.end is not None:
        event.add("DTEND", _at(entry.date, entry.end))
    return event


def _at(date: dt.date, time: str) -> dt.datetime:
    return dt.datetime.combine(date, dt.time.fromisoformat(time))
