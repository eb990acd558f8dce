"""Events: several matches on one day are prepared for, played and got over as one."""

from collections.abc import Iterable, Sequence
from itertools import groupby
from typing import Any, TypeVar

from optimiser.domain.fixture import Fixture, Priority
from optimiser.domain.wording import listed

#: Longest name of an event, as of an opponent.
LONGEST = 200

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
