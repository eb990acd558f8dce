"""Who of a squad is there: day by day, and the spans on which most are not."""

import datetime as dt
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from optimiser.athlete.availability import DAY, AthleteHistory
from optimiser.athlete.stages import FREE

#: Share of a squad below which its sessions are not the squad's any more, and the days in a row
#: from which that is worth a question. Engineering choices.
HALF, SPAN = 0.5, 3


@dataclass(frozen=True)
class Attendance:
    """Who is there on one day, by name.

    Parameters
    ----------
    limited
        Those of them who are on their way back.
    out
        Those who may not train, hurt or not cleared.
    away
        Those who are elsewhere.
    """

    there: tuple[str, ...]
    limited: tuple[str, ...]
    out: tuple[str, ...]
    away: tuple[str, ...]


def attendance(squad: Mapping[str, AthleteHistory], day: dt.date) -> Attendance:
    """Return who of a squad is there on a day."""
    there = tuple(name for name, history in squad.items() if history.trains(day))
    return Attendance(
        there=there,
        limited=tuple(name for name in there if squad[name].stage(day) < FREE),
        out=tuple(n for n, h in squad.items() if n not in there and not h.away(day)),
        away=tuple(name for name, history in squad.items() if history.away(day)),
    )


@dataclass(frozen=True)
class Absence:
    """Days in a row on which most of a squad is not there, and the fewest who are."""

    first: dt.date
    last: dt.date
    fewest: int


def shared_absences(
    squad: Mapping[str, AthleteHistory], days: Sequence[dt.date], closed: Collection[dt.date]
) -> list[Absence]:
    """Return the spans on which less than half of a squad is there.

    Parameters
    ----------
    days
        Days to look at, in order.
    closed
        Days on which nobody trains anyway; a span may reach over them.
    """
    found: list[Absence] = []
    run: list[tuple[dt.date, int]] = []
    for day in [*days, None]:
        few = None if day is None else len(attendance(squad, day).there)
        if day is not None and few is not None and few < HALF * len(squad):
            run.append((day, few))
            continue
        open_days = [(each, count) for each, count in run if each not in closed]
        if len(open_days) >= SPAN:
            fewest = min(count for _, count in open_days)
            found.append(Absence(open_days[0][0], open_days[-1][0], fewest))
        run = []
    return found


def days_between(first: dt.date, last: dt.date) -> list[dt.date]:
    """Return every day from the first to the last."""
    return [first + step * DAY for step in range((last - first).days + 1)]
