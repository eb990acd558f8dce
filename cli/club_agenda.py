"""What takes place for each squad, room, coach and athlete of a club, in the order of the weeks."""

import datetime as dt
from collections import Counter
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal, get_args

from cli.club import ClubWeek, PlannedSquad, squad_plan
from cli.render.clean_text import clean
from cli.render.week_days import match_words, session_content
from optimiser.athlete.availability import AthleteHistory
from optimiser.athlete.hold import Hold, hold_for
from optimiser.athlete.stages import FREE
from optimiser.days.day import DAY, minutes_of
from optimiser.days.shared import Pool
from optimiser.days.week_plan import DayPlan, OwnTime, SessionPlan, end_of
from optimiser.domain.calendar_day import monday_of
from optimiser.domain.quality import Place

#: Who has times of their own.
PUPILS = "those at school"
#: What is said to who is not with the squad yet, and to who is under 18.
CLEARANCE = "you play when the medical team has cleared you"
YOUNG = "under 18: less and lighter, as on your card"
Kind = Literal["squad", "room", "person", "athlete"]


@dataclass(frozen=True)
class AgendaEntry:
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
    school
        When those at school do it by themselves, if it falls in their hours; no start where there
        is no other time.
    of_pupils
        True if only they do it then.
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
    school: OwnTime | None = None
    of_pupils: bool = False

    @property
    def times(self) -> str:
        """Return its hours, or nothing."""
        return f"{self.start}-{self.end}" if self.start and self.end else self.start or ""


@dataclass(frozen=True)
class Agenda:
    """All that takes place for one squad, room, person or athlete."""

    name: str
    kind: Kind
    entries: tuple[AgendaEntry, ...]

    def weeks(self) -> Iterator[tuple[dt.date, list[AgendaEntry]]]:
        """Yield Mondays with what takes place in their weeks."""
        mondays = dict.fromkeys(monday_of(entry.date) for entry in self.entries)
        for monday in mondays:
            yield monday, [each for each in self.entries if monday_of(each.date) == monday]


def squad_agendas(
    squads: Sequence[PlannedSquad], pools: Sequence[Pool], weeks: Sequence[ClubWeek]
) -> list[Agenda]:
    """Return the agenda of every squad."""
    return [
        Agenda(squad.name, "squad", tuple(_of_squad(squads, pools, weeks, at)))
        for at, squad in enumerate(squads)
    ]


def pool_agenda(pool: Pool, kind: Kind, squads: Sequence[Agenda]) -> Agenda:
    """Return what takes place in a room, or with a person."""
    held = [entry for squad in squads for entry in squad.entries if pool.name in entry.where]
    held += [own for entry in held if (own := _of_pupils(entry))]
    return Agenda(pool.name, kind, tuple(sorted(held, key=_order)))


def athlete_agendas(
    squad: Agenda, people: dict[str, AthleteHistory], young: Collection[str]
) -> list[Agenda]:
    """Return the agenda of every athlete of a squad: without the days that allow no training.

    What stays is the squad's. Who is on the way back has the times that their stage allows, and is
    sent to the card for the work; so is who is under 18, and who is at school has times of their
    own.

    Parameters
    ----------
    young
        Names of those under 18.
    """
    found = []
    for name, history in people.items():
        there = [e for e in squad.entries if e.use == "match" or history.trains(e.date)]
        mine = [own for entry in there if (own := _of_athlete(entry, history))]
        if name in young:
            mine = sorted((_of_pupil(entry, name) for entry in mine), key=_order)
        found.append(replace(squad, name=name, kind="athlete", entries=tuple(mine)))
    return found


def _of_athlete(entry: AgendaEntry, history: AthleteHistory) -> AgendaEntry | None:
    """Return an entry as an athlete's stage of the way back has it; None where it allows none."""
    if entry.use == "match":
        cleared = history.stage(entry.date) == FREE
        return entry if cleared else replace(entry, what=f"{entry.what}; {CLEARANCE}")
    hold = hold_for(history, monday_of(entry.date)).on(entry.date)
    if hold.free:
        return entry
    if entry.use != "gym" and not hold.field:
        return None
    return replace(entry, what=_held_words(entry, hold))


def _held_words(entry: AgendaEntry, hold: Hold) -> str:
    if entry.use == "practice":
        return f"Team practice: only what the medical team allows ({hold.why})"
    return f"{entry.use.capitalize()}: the work of your own card ({hold.why})"


def _of_pupil(entry: AgendaEntry, name: str) -> AgendaEntry:
    """Return an entry at the time of somebody at school, or with a word that it has none."""
    own, what = entry.school, entry.what
    if own is not None:
        what += " (own time)" if own.start else " (in hours of school)"
    if entry.use in get_args(Place):
        what += f"; {YOUNG}"
    if own is None or own.start is None:
        return replace(entry, what=what)
    return _moved(entry, own.start, what, name)


def _of_pupils(entry: AgendaEntry) -> AgendaEntry | None:
    """Return the time at which those at school do something by themselves; None without."""
    own = entry.school
    if own is None or own.start is None:
        return None
    return replace(_moved(entry, own.start, f"{entry.what} ({PUPILS})", "pupils"), of_pupils=True)


def _moved(entry: AgendaEntry, start: str, what: str, key: str) -> AgendaEntry:
    end = end_of(start, _minutes(entry.start, entry.end))
    return replace(entry, start=start, end=end, what=what, key=(*entry.key, key), school=None)


def _minutes(start: str | None, end: str | None) -> int:
    first, last = (0 if each is None else minutes_of(dt.time.fromisoformat(each)) for each in
                   (start, end))  # fmt: skip
    return (last - first) % DAY


def _of_squad(
    squads: Sequence[PlannedSquad], pools: Sequence[Pool], weeks: Sequence[ClubWeek], squad: int
) -> Iterator[AgendaEntry]:
    for week in weeks:
        if squad in week.there:
            number: Counter[str] = Counter()
            plan = squad_plan(squads, week, squad)
            for day in plan.days:
                for entry in _of_day(day, squads[squad].name, pools, squad):
                    number[entry.use] += 1
                    key = (entry.who, str(week.monday), entry.use, str(number[entry.use]))
                    yield replace(entry, key=key, school=plan.own_time(entry.date, entry.use))


def _of_day(day: DayPlan, who: str, pools: Sequence[Pool], squad: int) -> list[AgendaEntry]:
    """Return the things of a day by the hour."""

    def entry(use: str, start: str | None, end: str | None, what: str) -> AgendaEntry:
        where = tuple(pool.name for pool in pools if pool.takes(squad, use))
        return AgendaEntry(day.date, day.label, start, end, who, use, clean(what), where, ())

    found = [entry(each.place, each.start, each.end, _session(each)) for each in day.sessions]
    if day.practice:
        end = end_of(day.practice.start, day.practice.minutes or 0)
        found.append(entry("practice", day.practice.start, end, "Team practice"))
    played = day.match.each if day.match else ()
    found += [entry("match", match.kickoff, None, match_words(match)) for match in played]
    return sorted(found, key=_order)


def _session(session: SessionPlan) -> str:
    return f"{session_content(session)} ({session.minutes} min)"


def _order(entry: AgendaEntry) -> tuple[dt.date, str, str]:
    return entry.date, entry.start or "~", entry.who
