"""All weeks of all squads of a club on what they share."""

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import NamedTuple

from cli.days import week_maker
from cli.files.club_file import Club, SquadPart
from cli.files.plan_file import read_plan
from cli.files.scenario_file import read_scenario
from cli.files.scenario_rules import read_rules
from cli.files.squad_ages import young_in
from cli.season.attendance import squad_histories
from cli.season.club_squads import SquadFiles, squad_files
from cli.season.progress import SeasonToday, progress
from optimiser.athlete.availability import AthleteHistory
from optimiser.days.day import DAY, minutes_of
from optimiser.days.holds import DayHold, Thing
from optimiser.days.placing import Placed, Task
from optimiser.days.shared import Booking, Pool, Shared, bookings, free_in, share_week
from optimiser.days.timetable import FAULT
from optimiser.days.week import WeekMaker
from optimiser.days.week_plan import WeekPlan
from optimiser.domain.plan import Plan
from optimiser.rule import Rule

#: A fault of a squad that gives way last weighs so much more than of the next one.
STEP = 3


@dataclass(frozen=True)
class PlannedSquad:
    """One squad with its plan, and what puts it on days.

    Parameters
    ----------
    people
        What is entered about each athlete of its squad file.
    young
        Names of those of them who are under 18.
    """

    name: str
    weight: int
    maker: WeekMaker
    plan: Plan
    people: dict[str, AthleteHistory] = field(default_factory=dict)
    young: frozenset[str] = frozenset()

    def index(self, monday: dt.date) -> int | None:
        """Return the week of a Monday, from 0; None outside of the season."""
        found = (monday - self.maker.season.weeks[0].monday).days // 7
        return found if 0 <= found < len(self.maker.season.weeks) else None


@dataclass(frozen=True)
class Closed:
    """A room that is closed, or a person who is away, on one day of a week.

    Parameters
    ----------
    pool
        By number.
    day
        0 Monday to 6 Sunday.
    """

    pool: int
    day: int

    def holds(self, pools: Sequence[Pool], squad: int) -> list[DayHold]:
        """Return what that asks of a squad: nothing there that needs it."""
        pool = pools[self.pool]
        things: tuple[Thing, ...] = ("field", "gym", "practice")
        return [DayHold(thing, self.day, on=False) for thing in things if pool.takes(squad, thing)]


@dataclass(frozen=True)
class ClubWeek:
    """One calendar week of the squads that have a season then.

    Parameters
    ----------
    there
        Squads by number.
    pools, closed
        What is shared, and what of it is closed on which days.
    """

    monday: dt.date
    there: tuple[int, ...]
    tasks: tuple[Task, ...]
    alone: tuple[Placed, ...]
    shared: Shared
    pools: tuple[Pool, ...] = ()
    closed: tuple[Closed, ...] = ()

    @property
    def booked(self) -> list[Booking]:
        """Return everything with hours, with the club's numbers of squads."""
        found = bookings(self.tasks, self.shared.placed)
        return [each._replace(squad=self.there[each.squad]) for each in found]


class ClubMember(NamedTuple):
    """A squad of a club as its files have it; ``weight`` says how much it is to be given way to."""

    part: SquadPart
    files: SquadFiles
    there: SeasonToday
    rules: tuple[Rule, ...]
    weight: int


def read_club_squads(club_file: Path, club: Club) -> list[ClubMember]:
    """Return the squads of a club, each with its season and plan as they were lived up to today.

    Raises
    ------
    InputError
        If a scenario or a plan cannot be used.
    """
    return list(_members(club_file, club))


def _members(club_file: Path, club: Club) -> Iterator[ClubMember]:
    most = max(part.priority for part in club.squads)
    for part, files in zip(club.squads, squad_files(club_file, club), strict=True):
        loaded = read_scenario(files.scenario)
        rules = tuple(read_rules(loaded))
        there = progress(loaded, read_plan(files.plan, loaded, rules))
        yield ClubMember(part, files, there, rules, STEP ** (most - part.priority))


def squads_of(members: Sequence[ClubMember]) -> list[PlannedSquad]:
    """Return the squads of a club with what puts their weeks on days.

    Raises
    ------
    InputError
        If a file of people or of days cannot be used.
    """
    return [_squad(each) for each in members]


def _squad(member: ClubMember) -> PlannedSquad:
    loaded = member.there.loaded
    maker, people = week_maker(loaded, member.rules), squad_histories(loaded)
    young = frozenset(young_in(loaded.scenario, loaded.path.parent)[0])
    return PlannedSquad(
        member.part.name, member.weight, maker, member.there.lived.plan, people, young
    )


def mondays(squads: Sequence[PlannedSquad]) -> list[dt.date]:
    """Return the Mondays of all weeks in which any squad has a season."""
    days = {week.monday for squad in squads for week in squad.maker.season.weeks}
    return sorted(days)


def club_week(squads: Sequence[PlannedSquad], pools: Sequence[Pool], monday: dt.date) -> ClubWeek:
    """Return one calendar week of all squads."""
    there = [at for at, squad in enumerate(squads) if squad.index(monday) is not None]
    return shared_week(squads, pools, monday, {at: alone_week(squads[at], monday) for at in there})


def closed_week(
    squads: Sequence[PlannedSquad],
    pools: Sequence[Pool],
    before: ClubWeek,
    closed: Sequence[Closed],
) -> ClubWeek:
    """Return a week with rooms closed on some days, and as much else as can be where it was."""
    pairs = {}
    for at, was in zip(before.there, before.shared.placed, strict=True):
        holds = [hold for each in closed for hold in each.holds(pools, at)]
        pairs[at] = alone_week(squads[at], before.monday, holds, was)
    return replace(shared_week(squads, pools, before.monday, pairs), closed=tuple(closed))


def shared_week(
    squads: Sequence[PlannedSquad],
    pools: Sequence[Pool],
    monday: dt.date,
    pairs: Mapping[int, tuple[Task, Placed]],
    *,
    liked: bool = True,
) -> ClubWeek:
    """Return the week of all squads, given what each would do alone.

    Parameters
    ----------
    liked
        False if only what can be kept is asked for.
    """
    there = tuple(pairs)
    tasks, alone = tuple(t for t, _ in pairs.values()), tuple(p for _, p in pairs.values())
    weights = [squads[at].weight for at in there]
    mine = [_renumbered(pool, there) for pool in pools]
    while True:
        shared = share_week(tasks, alone, mine, weights, liked=liked)
        grown = tuple(
            replace(task, extra=max(task.extra, _beside(squads[at], monday, task, placed)))
            for at, task, placed in zip(there, tasks, shared.placed, strict=True)
        )
        if grown == tasks:
            return ClubWeek(monday, there, tasks, alone, shared, tuple(pools))
        tasks = grown


def alone_week(
    squad: PlannedSquad, monday: dt.date, holds: Sequence[DayHold] = (), stay: Placed | None = None
) -> tuple[Task, Placed]:
    """Return a squad's week as it would be if it had everything for itself.

    Parameters
    ----------
    holds
        What is asked of it beside what stands in its files.
    stay
        The week as it stood, of which as much as can be is left.
    """
    return squad.maker.alone(squad.plan, squad.index(monday) or 0, holds, stay)


def _beside(squad: PlannedSquad, monday: dt.date, task: Task, placed: Placed) -> int:
    return squad.maker.beside(squad.index(monday) or 0, task, placed)


def _renumbered(pool: Pool, there: Sequence[int]) -> Pool:
    """Return a pool for the squads that are there; one for others only is for nobody."""
    if not pool.squads:
        return pool
    numbers = frozenset(new for new, old in enumerate(there) if old in pool.squads)
    return replace(pool, squads=numbers, uses=pool.uses if numbers else frozenset())


def squad_plan(squads: Sequence[PlannedSquad], week: ClubWeek, squad: int) -> WeekPlan:
    """Return a squad's week day by day, with the hours that all squads together leave it.

    Those at school who have times of their own have rooms and staff beside the other squads, and
    those of squads before it in the club's file.
    """
    at, one = week.there.index(squad), squads[squad]
    booked = [*week.booked, *_of_pupils(squads, week, squad)]

    def free(use: str, day: int, start: int, end: int) -> bool:
        shut = {each.pool for each in week.closed if each.day == day}
        used = [number for number, pool in enumerate(week.pools) if pool.takes(squad, use)]
        return not shut.intersection(used) and all(
            free_in(booked, week.pools[number], day, start, end) for number in used
        )

    index, placed = one.index(week.monday) or 0, week.shared.placed[at]
    return one.maker.show(index, week.tasks[at], placed, free=free)


def _of_pupils(squads: Sequence[PlannedSquad], week: ClubWeek, before: int) -> Iterator[Booking]:
    """Yield what those at school do in times of their own, of squads before one."""
    for squad in week.there:
        if squad < before and squads[squad].maker.pupils:
            plan = squad_plan(squads, week, squad)
            for own in plan.own_times:
                start = None if own.start is None else minutes_of(dt.time.fromisoformat(own.start))
                length = plan.minutes_of(own)
                if start is not None:
                    at = DAY * own.date.weekday() + start
                    yield Booking(squad, own.use, at, at + length)


def more_of(pool: Pool) -> tuple[Pool, Pool, Pool]:
    """Return a pool with one squad more at once, opened an hour earlier, and closed one later."""
    return (
        replace(pool, holds=pool.holds + 1),
        replace(pool, opens=max(0, pool.opens - 60)),
        replace(pool, closes=min(DAY, pool.closes + 60)),
    )


def worth(
    squads: Sequence[PlannedSquad], pools: Sequence[Pool], week: ClubWeek, at: int, other: Pool
) -> int:
    """Return what a week would be cheaper by with another pool in the place of one."""
    changed = [other if number == at else pool for number, pool in enumerate(pools)]
    weights = [squads[number].weight for number in week.there]
    mine = [_renumbered(pool, week.there) for pool in changed]
    found = share_week(week.tasks, week.alone, mine, weights).cost
    # what was possible before still is: a search that ends early loses nothing
    return max(0, week.shared.cost - found)


def faults_and_points(cost: int) -> tuple[int, float]:
    """Return a cost as faults and, in what is left, points of what is liked less."""
    faults = round(cost / FAULT)
    return faults, (cost - faults * FAULT) / 100
