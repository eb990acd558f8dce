"""What takes place for each squad, room, coach and athlete of a club, in the order of the weeks."""

import datetime as dt
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from cli.club import ClubWeek, Squad, squad_plan
from cli.render.clean_text import clean
from cli.render.week_days import match_words, session_words
from optimiser.athlete.availability import History
from optimiser.days.shared import Pool
from optimiser.days.week_plan import DayPlan, SessionPlan, end_of

Kind = Literal["squad", "room", "person", "athlete"]


@dataclass(frozen=True)
class Entry:
    """One thing that takes place.

    Parameters
    ----------
    start, end
        "HH:MM"; None where it has no time.
    who, what
        The squad, and what it does.
    where
        Rooms, and people it needs.
    key
        What stays the same if it is moved inside its week.
    """

    date: dt.date
    label: str
    start: str | None
    end: str | None
    who: str
    use: str
    what: str
    where: tuple[str, ...]
    key: tuple[str, ...]

    @property
    def times(self) -> str:
        """Return its hours, or nothing."""
        return f"{self.start}-{self.end}" if self.start and self.end else self.start or ""


@dataclass(frozen=True)
class Agenda:
    """All that takes place for one squad, room, person or athlete."""

    name: str
    kind: Kind
    entries: tuple[Entry, ...]

    def weeks(self) -> Iterator[tuple[dt.date, list[Entry]]]:
        """Yield Mondays with what takes place in their weeks."""
        mondays = dict.fromkeys(_monday(entry.date) for entry in self.entries)
        for monday in mondays:
            yield monday, [each for each in self.entries if _monday(each.date) == monday]


def squad_agendas(
    squads: Sequence[Squad], pools: Sequence[Pool], weeks: Sequence[ClubWeek]
) -> list[Agenda]:
    """Return the agenda of every squad."""
    return [
        Agenda(squad.name, "squad", tuple(_of_squad(squads, pools, weeks, at)))
        for at, squad in enumerate(squads)
    ]


def pool_agenda(pool: Pool, kind: Kind, squads: Sequence[Agenda]) -> Agenda:
    """Return what takes place in a room, or with a person."""
    held = [entry for squad in squads for entry in squad.entries if pool.name in entry.where]
    return Agenda(pool.name, kind, tuple(sorted(held, key=_order)))


def athlete_agendas(squad: Agenda, people: dict[str, History]) -> list[Agenda]:
    """Return the agenda of every athlete of a squad: without the days that allow no training.

    What stays is the squad's; the athlete's own work stands on the cards.
    """
    return [
        replace(
            squad,
            name=name,
            kind="athlete",
            entries=tuple(e for e in squad.entries if e.use == "match" or history.trains(e.date)),
        )
        for name, history in people.items()
    ]


def _of_squad(
    squads: Sequence[Squad], pools: Sequence[Pool], weeks: Sequence[ClubWeek], squad: int
) -> Iterator[Entry]:
    for week in weeks:
        if squad in week.there:
            number: Counter[str] = Counter()
            for day in squad_plan(squads, week, squad).days:
                for entry in _of_day(day, squads[squad].name, pools, squad):
                    number[entry.use] += 1
                    key = (entry.who, str(week.monday), entry.use, str(number[entry.use]))
                    yield replace(entry, key=key)


def _of_day(day: DayPlan, who: str, pools: Sequence[Pool], squad: int) -> list[Entry]:
    """Return the things of a day by the hour."""

    def entry(use: str, start: str | None, end: str | None, what: str) -> Entry:
        where = tuple(pool.name for pool in pools if pool.takes(squad, use))
        return Entry(day.date, day.label, start, end, who, use, clean(what), where, ())

    found = [entry(each.place, each.start, each.end, _session(each)) for each in day.sessions]
    if day.practice:
        end = end_of(day.practice.start, day.practice.minutes or 0)
        found.append(entry("practice", day.practice.start, end, "Team practice"))
    played = day.match.each if day.match else ()
    found += [entry("match", match.kickoff, None, match_words(match)) for match in played]
    return sorted(found, key=_order)


def _session(session: SessionPlan) -> str:
    return f"{session_words(session)} ({session.minutes} min)"


def _order(entry: Entry) -> tuple[dt.date, str, str]:
    return entry.date, entry.start or "~", entry.who


def _monday(date: dt.date) -> dt.date:
    return date - dt.timedelta(days=date.weekday())
