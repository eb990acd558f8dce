"""Events: several matches on one day, or on days in a row, are prepared for as one."""

import datetime as dt
import re
from collections import Counter
from collections.abc import Iterable, Sequence
from itertools import groupby, pairwise
from typing import Any, TypeVar

from optimiser.domain.fixture import Fixture, Priority
from optimiser.domain.season import Event
from optimiser.domain.wording import listed

#: Longest name of an event, as of an opponent.
LONGEST = 200
ONE_DAY = dt.timedelta(days=1)
#: Longest event; what goes on for longer has days to train on, or none at all.
MOST_DAYS = 7
#: What a competition's name says of its stages.
STAGE = re.compile(
    r"\b(?:(?:quarter|semi|grand)?[- ]?finals?|[qsg]f|knock-?outs?|play-?offs?|plate|bowl|"
    r"(?:pools?|groups?|rounds?|stages?|days?|r)(?:\s*(?:\d+|[a-h]))?)\b|\W",
    re.I,
)

Value = TypeVar("Value")


def events_of(fixtures: Iterable[Fixture], match_minutes: float) -> tuple[Fixture, ...]:
    """Return fixtures by date, those of one day put together.

    Parameters
    ----------
    match_minutes
        Minutes of a match that says nothing of its own.
    """
    by_date = sorted(fixtures, key=lambda fixture: fixture.date)
    days = [tuple(day) for _, day in groupby(by_date, key=lambda fixture: fixture.date)]
    return tuple(day[0] if len(day) == 1 else _event(day, match_minutes) for day in days)


def several_a_day(fixtures: Iterable[Fixture]) -> tuple[Fixture, ...]:
    """Return the matches of days with more than one, by date and kick-off, each as listed."""
    by_time = sorted(fixtures, key=lambda match: (match.date, match.kickoff or dt.time()))
    many = Counter(match.date for match in by_time)
    return tuple(match for match in by_time if many[match.date] > 1)


def days_in_a_row(fixtures: Sequence[Fixture]) -> tuple[Event, ...]:
    """Return the events that go on from day to day.

    Matches on two days in a row belong together if a day has several, or if both are of one
    competition, whatever its stage, that is over within a week (common practice, no source).
    """
    by_day: dict[dt.date, list[Fixture]] = {}
    for match in sorted(fixtures, key=lambda match: match.date):
        by_day.setdefault(match.date, []).append(match)
    short = _short_competitions(fixtures)
    found: list[Event] = []
    for before, after in pairwise(by_day):
        if after - before != ONE_DAY or not _belong(by_day[before], by_day[after], short):
            continue
        begun = found[-1] if found and found[-1].last == before else None
        if begun and (after - begun.first).days < MOST_DAYS:
            found[-1] = Event(first=begun.first, last=after)
        elif not begun:
            found.append(Event(first=before, last=after))
    return tuple(found)


def _short_competitions(fixtures: Iterable[Fixture]) -> set[str]:
    """Return the competitions that are over within a week, without the words of their stages."""
    days: dict[str, list[dt.date]] = {}
    for match in fixtures:
        days.setdefault(_series(match), []).append(match.date)
    return {
        name for name, held in days.items() if name and (max(held) - min(held)).days < MOST_DAYS
    }


def _belong(before: Sequence[Fixture], after: Sequence[Fixture], short: set[str]) -> bool:
    several = max(len(before), len(after)) > 1
    return several or bool(short & {*map(_series, before)} & {*map(_series, after)})


def _series(match: Fixture) -> str:
    """Return the words of a competition without those of its stages."""
    return " ".join(STAGE.sub(" ", match.competition.lower()).split())


def _event(day: Sequence[Fixture], match_minutes: float) -> Fixture:
    """Return one fixture for a day of several matches: their minutes added up.

    The day counts from its first kick-off to its last, so by date where these differ: hard work
    then keeps whole days from it on both sides.
    """
    ranks = list(Priority)
    changes: dict[str, Any] = {
        "kickoff": _same([match.kickoff for match in day]),
        "opponent": _joined([match.opponent for match in day]),
        "competition": _joined([match.competition for match in day]),
        "venue": _same([match.venue for match in day]) or "",
        "priority": min((match.priority for match in day), key=ranks.index),
        "minutes": sum(match.minutes or match_minutes for match in day),
        "travel_hours": max(match.travel_hours for match in day),
        "target": max((match.target for match in day if match.target is not None), default=None),
        "weight": max((match.weight for match in day if match.weight is not None), default=None),
    }
    return day[0].model_copy(update=changes)


def _same(values: Sequence[Value]) -> Value | None:
    return values[0] if len(set(values)) == 1 else None


def _joined(names: Sequence[str]) -> str:
    """Return the names in order, each once, cut to the longest name there may be."""
    told = [name for name in dict.fromkeys(names) if name]
    text = listed(told) if told else ""
    return text if len(text) <= LONGEST else f"{text[: LONGEST - 3]}..."
