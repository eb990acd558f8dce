"""All weeks of all squads of a club on what they share."""

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import NamedTuple

from cli.days import week_maker
from cli.files.club_file import Club, SquadPart
from cli.files.plan_file import read_plan
from cli.files.scenario_file import Loaded, read_scenario
from cli.files.scenario_rules import read_rules
from cli.files.squad_ages import young_in
from cli.season.attendance import squad_histories
from optimiser.athlete.availability import History
from optimiser.days.day import DAY
from optimiser.days.holds import Hold, Thing
from optimiser.days.placing import Placed, Task
from optimiser.days.shared import Booking, Pool, Shared, bookings, share_week
from optimiser.days.timetable import FAULT
from optimiser.days.week import WeekMaker
from optimiser.days.week_plan import WeekPlan
from optimiser.domain.plan import Plan
from optimiser.rule import Rule

#: A fault of a squad that gives way last weighs so much more than of the next one.
STEP = 3


@dataclass(frozen=True)
class Squad:
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
    people: dict[str, History] = field(default_factory=dict)
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

    def holds(self, pools: Sequence[Pool], squad: int) -> list[Hold]:
        """Return what that asks of a squad: nothing there that needs it."""
        pool = pools[self.pool]
        things: tuple[Thing, ...] = ("field", "gym", "practice")
        return [Hold(thing, self.day, on=False) for thing in things if pool.takes(squad, thing)]


@dataclass(frozen=True)
class ClubWeek:
    """One calendar week of the squads that have a season then.

    Parameters
    ----------
    there
        Squads by number.
    """

    monday: dt.date
    there: tuple[int, ...]
    tasks: tuple[Task, ...]
    alone: tuple[Placed, ...]
    shared: Shared

    @property
    def booked(self) -> list[Booking]:
        """Return everything with hours, with the club's numbers of squads."""
        found = bookings(self.tasks, self.shared.placed)
        return [each._replace(squad=self.there[each.squad]) for each in found]


class Member(NamedTuple):
    """A squad of a club as its files have it; ``weight`` says how much it is to be given way to."""

    part: SquadPart
    loaded: Loaded
    rules: list[Rule]
    plan: Plan
    weight: int


def each_squad(folder: Path, club: Club) -> Iterator[Member]:
    """Yield the squads of a club, each with its season, rules and plan.

    Raises
    ------
    InputError
        If a scenario or a plan cannot be used.
    """
    most = max(part.priority for part in club.squads)
    for part in club.squads:
        loaded = read_scenario(folder / part.scenario)
        rules = read_rules(loaded)
        plan = read_plan(folder / part.plan, loaded, rules)
        yield Member(part, loaded, rules, plan, STEP ** (most - part.priority))


def read_squads(folder: Path, club: Club) -> list[Squad]:
    """Return the squads of a club.

    Raises
    ------
    InputError
        If a scenario or a plan cannot be used.
    """
    found = []
    for part, loaded, rules, plan, weight in each_squad(folder, club):
        maker, people = week_maker(loaded, rules), squad_histories(loaded)
        young = frozenset(young_in(loaded.scenario, loaded.path.parent)[0])
        found.append(Squad(part.name, weight, maker, plan, people, young))
    return found


def mondays(squads: Sequence[Squad]) -> list[dt.date]:
    """Return the Mondays of all weeks in which any squad has a season."""
    days = {week.monday for squad in squads for week in squad.maker.season.weeks}
    return sorted(days)


def club_week(squads: Sequence[Squad], pools: Sequence[Pool], monday: dt.date) -> ClubWeek:
    """Return one calendar week of all squads."""
    there = [at for at, squad in enumerate(squads) if squad.index(monday) is not None]
    return _shared(squads, pools, monday, {at: _alone(squads[at], monday) for at in there})


def closed_week(
    squads: Sequence[Squad], pools: Sequence[Pool], before: ClubWeek, closed: Sequence[Closed]
) -> ClubWeek:
    """Return a week with rooms closed on some days, and as much else as can be where it was."""
    pairs = {}
    for at, was in zip(before.there, before.shared.placed, strict=True):
        holds = [hold for each in closed for hold in each.holds(pools, at)]
        pairs[at] = _alone(squads[at], before.monday, holds, was)
    return _shared(squads, pools, before.monday, pairs)


def _shared(
    squads: Sequence[Squad],
    pools: Sequence[Pool],
    monday: dt.date,
    pairs: Mapping[int, tuple[Task, Placed]],
) -> ClubWeek:
    """Return the week of all squads, given what each would do alone."""
    there = tuple(pairs)
    tasks, alone = tuple(t for t, _ in pairs.values()), tuple(p for _, p in pairs.values())
    weights = [squads[at].weight for at in there]
    mine = [_renumbered(pool, there) for pool in pools]
    while True:
        shared = share_week(tasks, alone, mine, weights)
        grown = tuple(
            replace(task, extra=max(task.extra, _beside(squads[at], monday, task, placed)))
            for at, task, placed in zip(there, tasks, shared.placed, strict=True)
        )
        if grown == tasks:
            return ClubWeek(monday, there, tasks, alone, shared)
        tasks = grown


def _alone(
    squad: Squad, monday: dt.date, holds: Sequence[Hold] = (), stay: Placed | None = None
) -> tuple[Task, Placed]:
    return squad.maker.alone(squad.plan, squad.index(monday) or 0, holds, stay)


def _beside(squad: Squad, monday: dt.date, task: Task, placed: Placed) -> int:
    return squad.maker.beside(squad.index(monday) or 0, task, placed)


def _renumbered(pool: Pool, there: Sequence[int]) -> Pool:
    """Return a pool for the squads that are there; one for others only is for nobody."""
    if not pool.squads:
        return pool
    numbers = frozenset(new for new, old in enumerate(there) if old in pool.squads)
    return replace(pool, squads=numbers, uses=pool.uses if numbers else frozenset())


def squad_plan(squads: Sequence[Squad], week: ClubWeek, squad: int) -> WeekPlan:
    """Return a squad's week day by day, with the hours that all squads together leave it."""
    at, one = week.there.index(squad), squads[squad]
    return one.maker.show(one.index(week.monday) or 0, week.tasks[at], week.shared.placed[at])


def more_of(pool: Pool) -> tuple[Pool, Pool, Pool]:
    """Return a pool with one squad more at once, opened an hour earlier, and closed one later."""
    return (
        replace(pool, holds=pool.holds + 1),
        replace(pool, opens=max(0, pool.opens - 60)),
        replace(pool, closes=min(DAY, pool.closes + 60)),
    )


def worth(
    squads: Sequence[Squad], pools: Sequence[Pool], week: ClubWeek, at: int, other: Pool
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
