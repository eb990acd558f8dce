"""The entries of a calendar: which of them count, and what they say."""

import datetime as dt
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from typing import Any
from zoneinfo import ZoneInfo

from cli.files.fixtures_words import event_kind, is_occasion, says_match
from optimiser.domain.fixture import Priority

#: Categories that are priorities, as in the calendars that plans are written to.
RANKS = {priority.value for priority in Priority}


@dataclass(frozen=True)
class CalendarEntry:
    """One event of a calendar.

    Parameters
    ----------
    where
        ``event 3``.
    event
        As the library read it.
    zone
        Time zone of times in UTC; None to keep them as written.
    calendar
        Name of its calendar; "" if it has none.
    """

    where: str
    event: Any
    zone: ZoneInfo | None
    calendar: str = ""

    @property
    def timed(self) -> bool:
        """Tell whether it has a time of day."""
        return isinstance(self.start, dt.datetime)

    @property
    def start(self) -> dt.date | None:
        """Return the start as written, None if there is none that can be read."""
        return moment(self.event, "DTSTART")

    @property
    def key(self) -> tuple[str, str]:
        """Return what is the same in all versions of this entry."""
        moved = moment(self.event, "RECURRENCE-ID")
        return str(self.event.get("UID", "")) or self.where, str(moved or "")


def moment(event: Any, name: str) -> dt.date | None:
    """Return the date, or date and time, of a property; None if it has none."""
    with suppress(KeyError, AttributeError, ValueError, TypeError):
        found = event[name].dt
        return found if isinstance(found, dt.date) else None
    return None


def local(day: dt.date, zone: ZoneInfo | None) -> dt.date:
    """Return ``day``, a time in UTC turned into that of ``zone``; without zone of its own."""
    if not isinstance(day, dt.datetime):
        return day
    if zone and day.tzname() == "UTC":
        with suppress(OverflowError):
            day = day.astimezone(zone)
    return day.replace(tzinfo=None)


def latest(entries: Sequence[CalendarEntry]) -> set[str]:
    """Return where the entry of the highest SEQUENCE stands, for each UID; of equals the last."""
    found: dict[tuple[str, str], CalendarEntry] = {}
    for entry in entries:
        before = found.get(entry.key)
        if before is None or _sequence(entry) >= _sequence(before):
            found[entry.key] = entry
    return {entry.where for entry in found.values()}


def left_out_kind(entry: CalendarEntry) -> str:
    """Return why an entry is no match to plan around, or an empty string."""
    if str(entry.event.get("STATUS", "")).strip().upper() == "CANCELLED":
        return "cancelled"
    name = name_of(entry)
    kind = event_kind(name) or ("occasion" if is_occasion(name) else "")
    return kind or ("days" if _several_days(entry) else "")


def all_day(kept: Sequence[CalendarEntry]) -> set[str]:
    """Return where entries stand that last all day and do not say that they are matches.

    Nothing where no entry has hours, or fewer have than have none: kick-offs are not known then.
    """
    without = [entry for entry in kept if not entry.timed]
    if 2 * len(without) > len(kept):
        return set()
    return {entry.where for entry in without if not (_ranked(entry) or says_match(name_of(entry)))}


def categories(event: Any) -> list[str]:
    """Return the categories of an event."""
    found = event.get("CATEGORIES", [])
    groups = found if isinstance(found, list) else [found]
    return [str(word) for group in groups for word in getattr(group, "cats", [group])]


def name_of(entry: CalendarEntry) -> str:
    """Return the summary on one line."""
    return " ".join(str(entry.event.get("SUMMARY", "")).split())


def _ranked(entry: CalendarEntry) -> bool:
    """Tell whether a category is a priority."""
    return any(name.strip().lower() in RANKS for name in categories(entry.event))


def _sequence(entry: CalendarEntry) -> int:
    with suppress(TypeError, ValueError):
        return int(entry.event.get("SEQUENCE", 0))
    return 0


def _several_days(entry: CalendarEntry) -> bool:
    start, end = entry.start, moment(entry.event, "DTEND")
    timed = isinstance(start, dt.datetime) or isinstance(end, dt.datetime)
    if start is None or timed:
        return False
    with suppress(KeyError, AttributeError, ValueError, TypeError):
        return (end - start if end else entry.event["DURATION"].dt) > dt.timedelta(days=1)
    return False
