"""A repeating entry of a calendar becomes the days it falls on."""

import datetime as dt
from collections.abc import Sequence
from itertools import islice, takewhile
from pathlib import Path
from typing import Any

from dateutil.rrule import rrulestr  # type: ignore[import-untyped]

from cli.files.errors import InputError
from cli.files.fixtures_entries import CalendarEntry, local, moment

MOST_REPEATS = 400
DO = "give each match its own event; if it is no match, keep only those that are by `--match TEXT`"
#: What a rule may say: with these each day, week or month (or the next that has the day) holds a
#: repeat, so the count is soon reached.
SAID = {"FREQ", "COUNT", "UNTIL", "INTERVAL", "BYDAY", "BYMONTHDAY", "WKST"}
OFTEN = (["DAILY"], ["WEEKLY"], ["MONTHLY"])


def days_of(path: Path, entry: CalendarEntry, entries: Sequence[CalendarEntry]) -> list[dt.date]:
    """Return the start of each repeat; of an entry that does not repeat, its own.

    Raises
    ------
    InputError
        If the rule is not daily, weekly or monthly, has no end or has too many repeats.
    """
    start = entry.start
    if start is None:
        return []
    first = local(start, entry.zone)
    if "RRULE" not in entry.event and "RDATE" not in entry.event:
        return [first]
    found = _expanded(path, entry, start)
    away = _taken_out(path, entry) | _moved(entry, entries)
    return [local(day, entry.zone) for day in found if local(day, entry.zone) not in away]


def _expanded(path: Path, entry: CalendarEntry, start: dt.date) -> list[dt.date]:
    rule = entry.event.get("RRULE")
    if not _is_plain(rule) or "RDATE" in entry.event:
        raise _refused(path, entry, "a repeating event")
    timed = start if isinstance(start, dt.datetime) else dt.datetime.combine(start, dt.time())
    bare = {key: value for key, value in rule.items() if key.upper() != "UNTIL"}
    try:
        days = list(islice(_until(rule, timed, _rule(rule, bare, timed)), MOST_REPEATS + 1))
    except (ValueError, TypeError, OverflowError):
        raise _refused(path, entry, "a rule that cannot be read") from None
    if len(days) > MOST_REPEATS:
        raise _refused(path, entry, f"more than {MOST_REPEATS} repeats")
    return days if isinstance(start, dt.datetime) else [day.date() for day in days]


def _is_plain(rule: Any) -> bool:
    if not isinstance(rule, dict) or not {key.upper() for key in rule} <= SAID:
        return False
    often = [str(word).upper() for word in rule.get("FREQ", [])]
    ends = "COUNT" in rule or "UNTIL" in rule
    steps = [int(step) for step in rule.get("INTERVAL", [1])]
    # both together may never meet: every 31st that is the first Sunday
    days = {"BYDAY", "BYMONTHDAY"} <= {key.upper() for key in rule}
    return ends and often in OFTEN and not days and all(1 <= step <= 53 for step in steps)


def _rule(rule: Any, bare: dict[str, Any], start: dt.datetime) -> Any:
    text = type(rule)(bare).to_ical().decode()
    return rrulestr(text, dtstart=start)


def _until(rule: Any, start: dt.datetime, days: Any) -> Any:
    """Return the days up to UNTIL, which calendars write with a zone or without."""
    if "UNTIL" not in rule:
        return days
    end = rule["UNTIL"][0]
    if not isinstance(end, dt.datetime):
        return takewhile(lambda day: day.date() <= end, days)
    if (end.tzinfo is None) != (start.tzinfo is None):
        return takewhile(lambda day: day.replace(tzinfo=None) <= end.replace(tzinfo=None), days)
    return takewhile(lambda day: day <= end, days)


def _taken_out(path: Path, entry: CalendarEntry) -> set[dt.date]:
    found = entry.event.get("EXDATE", [])
    groups = found if isinstance(found, list) else [found]
    try:
        return {local(item.dt, entry.zone) for group in groups for item in group.dts}
    except (AttributeError, ValueError):
        raise _refused(path, entry, "an EXDATE that cannot be read") from None


def _moved(entry: CalendarEntry, entries: Sequence[CalendarEntry]) -> set[dt.date]:
    """Return the repeats that have an entry of their own."""
    same = [item for item in entries if item.key[0] == entry.key[0]]
    moved = (moment(item.event, "RECURRENCE-ID") for item in same)
    return {local(day, entry.zone) for day in moved if day}


def _refused(path: Path, entry: CalendarEntry, got: str) -> InputError:
    must = "must be one match, or repeat by day, week or month to an end, "
    must += f"{MOST_REPEATS} times at most"
    return InputError(path, entry.where, must, got, DO)
