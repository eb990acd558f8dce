"""A plan as a calendar (iCalendar, RFC 5545): fixtures and sessions as events."""

import datetime as dt
import hashlib
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from zoneinfo import ZoneInfo

from icalendar import Calendar, Event

from cli.render.clean_text import clean
from cli.render.week_days import session_content
from cli.render.week_marks import marks_told
from cli.report.report import Report
from optimiser.days.week_plan import DayPlan, PracticeInfo, SessionPlan
from optimiser.domain.fixture import Fixture
from optimiser.domain.week_number import index_of

#: Of what says how often an event was written anew: seconds since then (RFC 5545, 3.8.7.4).
COUNTED_FROM = dt.datetime(2024, 1, 1, tzinfo=dt.UTC)
#: Added to a match's own minutes, for half-time and stoppages.
BREAKS = 30
#: PRIORITY by words: 1 is the highest (RFC 5545, 3.8.1.9).
NUMBERS = {"peak": 1, "high": 1, "medium": 5, "low": 9}


@dataclass(frozen=True)
class Times:
    """When things are.

    Parameters
    ----------
    zone
        Time zone of kick-offs and sessions; None leaves them local to whoever looks.
    """

    zone: ZoneInfo | None = None


def new_calendar(kind: str, name: str) -> Calendar:
    """Return a calendar without events."""
    calendar = Calendar()
    calendar.add("PRODID", f"-//Seasonwright//{kind}//EN")
    calendar.add("VERSION", "2.0")
    calendar.add("METHOD", "PUBLISH")
    calendar.add("X-WR-CALNAME", name)
    return calendar


def add_events(calendar: Calendar, events: Iterable[Event], now: dt.datetime) -> None:
    """Add events as they are ``now``, so that calendars take them for the latest."""
    for event in events:
        event.add("DTSTAMP", now.astimezone(dt.UTC).replace(microsecond=0))
        event.add("SEQUENCE", max(0, int((now - COUNTED_FROM).total_seconds())))
        calendar.add_component(event)


def calendar_bytes(report: Report, times: Times, now: dt.datetime) -> bytes:
    """Return the calendar of a plan.

    An event keeps its UID when a match is moved or a season planned again, so that a calendar
    that has it takes the new one in its place.

    Parameters
    ----------
    now
        When it is written, with a time zone.
    """
    calendar = new_calendar("Season", clean(report.season.name))
    if times.zone:
        calendar.add("X-WR-TIMEZONE", times.zone.key)
    add_events(calendar, (*_matches(report, times), *_days(report, times)), now)
    if times.zone:
        weeks = report.season.weeks
        last = weeks[-1].monday + dt.timedelta(days=365)
        calendar.add_missing_timezones(weeks[0].monday - dt.timedelta(days=365), last)
    return bytes(calendar.to_ical())


# --- fixtures -------------------------------------------------------------------------------


def _matches(report: Report, times: Times) -> Iterator[Event]:
    met: Counter[tuple[str, ...]] = Counter()
    for week, fixture in report.fixtures:
        who = (fixture.opponent, fixture.competition, fixture.venue)
        met[who] += 1
        event = Event()
        event.add("UID", _uid(report, "match", *who, str(met[who])))
        event.add("SUMMARY", _summary(fixture))
        event.add("DESCRIPTION", _about(report, week.index))
        event.add("CATEGORIES", [fixture.priority.value])
        event.add("PRIORITY", NUMBERS[fixture.priority.value])
        minutes = fixture.minutes or report.season.match_minutes
        _when(event, fixture.date, fixture.kickoff, minutes + BREAKS, times.zone)
        yield event


def _summary(fixture: Fixture) -> str:
    venue = {"home": " (home)", "away": " (away)", "neutral": " (neutral ground)"}
    name = clean(fixture.name) or "match"
    more = f", {clean(fixture.competition)}" if fixture.opponent and fixture.competition else ""
    return f"{name}{more}{venue.get(fixture.venue, '')}"


def _about(report: Report, week: int) -> str:
    part = report.document.weeks[week]
    marks = marks_told(part)
    ready = f"planned readiness {part.readiness:.0f}, target {part.target:.0f}"
    return ", ".join([f"Week {part.week}", ready, *marks])


# --- sessions -------------------------------------------------------------------------------


def _days(report: Report, times: Times) -> Iterator[Event]:
    """Yield sessions and practice; what has no time of its own takes the whole day."""
    for week in report.weeks:
        number: Counter[str] = Counter()
        for day in week.days:
            if day.practice:
                number["practice"] += 1
                uid = _uid(report, "practice", week.week, number["practice"])
                yield _practice(uid, day, day.practice, times)
            for session in day.sessions:
                number[session.place] += 1
                uid = _uid(report, "session", week.week, session.place, number[session.place])
                yield _session(report, uid, week.week, day, session, times)


def _practice(uid: str, day: DayPlan, practice: PracticeInfo, times: Times) -> Event:
    event = Event()
    event.add("UID", uid)
    length = "" if practice.minutes is None else f", {practice.minutes} min"
    near = f" ({day.label})" if day.label else ""
    event.add("SUMMARY", f"Team practice{length}{near}")
    event.add("CATEGORIES", ["practice"])
    _when(event, day.date, _at(practice.start), practice.minutes or 0, times.zone)
    return event


def _session(
    report: Report, uid: str, week: int, day: DayPlan, session: SessionPlan, times: Times
) -> Event:
    event = Event()
    event.add("UID", uid)
    near = f" ({day.label})" if day.label else ""
    event.add("SUMMARY", f"{session.place.title()} session, {session.minutes} min{near}")
    event.add("DESCRIPTION", f"{clean(session_content(session))}. {_about(report, index_of(week))}")
    event.add("CATEGORIES", [session.place])
    _when(event, day.date, _at(session.start), session.minutes, times.zone)
    if session.start is None:
        event.add("TRANSP", "TRANSPARENT")
    return event


def _at(start: str | None) -> dt.time | None:
    return None if start is None else dt.time.fromisoformat(start)


# --- both -----------------------------------------------------------------------------------


def _uid(report: Report, *parts: object) -> str:
    """Return a name that stays when a date changes."""
    whole = "\x1f".join(map(str, (report.season.name, *parts)))
    digest = hashlib.sha256(whole.encode("utf-8", "surrogatepass")).hexdigest()
    return f"{digest[:32]}@seasonwright"


def _when(
    event: Event, day: dt.date, start: dt.time | None, minutes: float, zone: ZoneInfo | None
) -> None:
    """Give an event its time; without a start it takes the whole day."""
    if start is None:
        event.add("DTSTART", day)
        event.add("DTEND", day + dt.timedelta(days=1))
        return
    begins, ends = span(dt.datetime.combine(day, start), minutes, zone)
    event.add("DTSTART", begins)
    event.add("DTEND", ends)


def span(
    local: dt.datetime, minutes: float, zone: ZoneInfo | None
) -> tuple[dt.datetime, dt.datetime]:
    """Return start and end of so many minutes on the clock of ``zone``.

    The end is counted in real minutes, also where clocks change between the two; a start that
    clocks skip is the moment they skip to.
    """
    length = dt.timedelta(minutes=minutes)
    if zone is None:
        return local, local + length
    begins = local.replace(tzinfo=zone).astimezone(dt.UTC)
    return begins.astimezone(zone), (begins + length).astimezone(zone)
