"""The seasons of a club's squads, planned together as far as they share scarce hours."""

import datetime as dt
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from pathlib import Path

from cli.club import (
    ClubMember,
    ClubWeek,
    PlannedSquad,
    alone_week,
    closed_week,
    mondays,
    shared_week,
    squads_of,
)
from cli.club_closed import ByMonday, read_closed
from cli.files.club_file import Club
from cli.files.plan_json import read_document
from cli.season.club_folder import ClubFolder
from cli.season.club_squads import SquadFiles
from cli.season.progress import SeasonToday
from cli.solving import settings_of
from optimiser.club.fitting_seasons import Tell, Together, plan_together
from optimiser.club.ground import FREE, Claim, Ground
from optimiser.club.open_hours import PLACES, SquadDays, open_minutes
from optimiser.club.share import Unfit
from optimiser.club.squad_season import SquadSeason, best_plan, cost_of
from optimiser.club.time_limit import PATIENT, Patience, TimeUpError
from optimiser.days.placing import Placed, Task
from optimiser.days.shared import Pool
from optimiser.domain.plan import Plan
from optimiser.joint_model.verdict import told_before
from optimiser.rule import Rule

#: Weeks whose timetables are looked for at once.
WORKERS = 2


@dataclass(frozen=True)
class ClubSquad:
    """A squad's season with the files it is in.

    Parameters
    ----------
    own
        The season as its club plans it.
    """

    own: SquadSeason
    there: SeasonToday
    rules: tuple[Rule, ...]
    files: SquadFiles


@dataclass(frozen=True)
class ClubPlans:
    """The seasons of all squads, what they share, and their plans."""

    squads: tuple[ClubSquad, ...]
    grounds: tuple[Ground, ...]
    found: Together

    @property
    def changed(self) -> bool:
        """Tell whether any plan is another than the one on file."""
        pairs = zip(self.squads, self.found.plans, strict=True)
        return any(plan != squad.there.lived.plan for squad, plan in pairs)


def together(
    folder: ClubFolder,
    club: Club,
    members: Sequence[ClubMember],
    tell: Tell,
    patience: Patience = PATIENT,
) -> ClubPlans:
    """Return plans of all squads that fit on what they share.

    Parameters
    ----------
    tell
        Told what is being done.

    Raises
    ------
    InputError
        If a file cannot be used.
    """
    pools = club.pools()
    kept = read_closed(folder.closed, pools)
    seasons, squads = read_seasons(members, tell, patience), squads_of(members)
    own = [each.own for each in seasons]
    grounds = grounds_of(squads, own, pools, kept)
    weeks = Timetables(squads, pools, kept, grounds, patience)
    found = plan_together(own, grounds, weeks.unfit, tell, patience)
    return ClubPlans(tuple(seasons), tuple(grounds), found)


def read_seasons(members: Sequence[ClubMember], tell: Tell, patience: Patience) -> list[ClubSquad]:
    """Return the squads' seasons, each with its best plan alone.

    That is the plan on file, if the file says how near it is to the best; else one is looked for.

    Raises
    ------
    InputError
        If a plan cannot be used.
    """
    return [
        ClubSquad(_own(each, tell, patience), each.there, each.rules, each.files)
        for each in members
    ]


def _own(member: ClubMember, tell: Tell, patience: Patience) -> SquadSeason:
    """Return a squad's season with its best plan and what is proven of it."""
    name, there = member.part.name, member.there
    settings = settings_of(there.loaded, None, fast=False, seconds=None)
    plan, decided = there.lived.plan, there.decided
    season = there.loaded.season
    own = SquadSeason(name, member.weight, season, member.rules, settings, plan, 0.0, decided)
    over = own.over >= len(season.weeks)
    bound = float(cost_of(own, plan)) if over else _told_bound(own, member.files.plan)
    if bound is not None:
        return replace(own, bound=bound)
    tell(f"{name}: how near its plan is to the best is not on file, so it is looked for ...")
    try:
        answer = best_plan(patience.squad(own), FREE, plan)
    except TimeUpError:
        return own
    if answer is None:
        return own
    better = cost_of(own, answer.plan) < cost_of(own, plan)
    return replace(own, plan=answer.plan if better else plan, bound=answer.bound)


def _told_bound(own: SquadSeason, path: Path) -> float | None:
    """Return the bound that a plan's file tells of, if it speaks of this very plan."""
    told = read_document(path).season if path.suffix.lower() == ".json" else None
    if told is None or told.changes or own.over:
        return None
    before = told_before(told)
    agrees = before.objective == cost_of(own, own.plan) and before.bound <= before.objective
    return before.bound if agrees and before.bound > 0 else None


def grounds_of(
    squads: Sequence[PlannedSquad],
    seasons: Sequence[SquadSeason],
    pools: Sequence[Pool],
    kept: ByMonday,
) -> list[Ground]:
    """Return everything shared in every week in which something of it can still be chosen."""
    found = []
    for monday in mondays(squads):
        days = [_days(squad, at, monday) for at, squad in enumerate(squads)]
        there = [each for each in days if each is not None]
        for number, pool in enumerate(pools):
            shut = {each.day for each in kept.get(monday, ()) if each.pool == number}
            claims = [_claim(seasons[d.squad], squads[d.squad], pool, d, monday) for d in there]
            used = tuple(claim for claim in claims if claim is not None)
            if any(claim.places for claim in used):
                minutes = open_minutes(pool, there, shut)
                found.append(Ground(number, monday, minutes, used))
    return found


def _days(squad: PlannedSquad, at: int, monday: dt.date) -> SquadDays | None:
    index = squad.index(monday)
    if index is None:
        return None
    maker = squad.maker
    return SquadDays(at, maker.days[index], maker.settings, maker.practices(index))


def _claim(
    own: SquadSeason, squad: PlannedSquad, pool: Pool, days: SquadDays, monday: dt.date
) -> Claim | None:
    """Return what a squad uses of a pool in a week; what is over is fixed."""
    week = squad.index(monday)
    assert week is not None
    places = {place for place in PLACES if pool.takes(days.squad, place)}
    practices = days.practices
    practised = pool.takes(days.squad, "practice")
    if practised and practices.within and practices.count:
        places.discard("field")  # it may be the first part of practice, which is counted
    fixed = practices.count * practices.minutes if practised else 0
    if week < own.over or own.season.weeks[week].closed:
        fixed += sum(FREE.minutes(own.season, own.plan, place, week) for place in places)
        places = set()
    return Claim(days.squad, week, frozenset(places), fixed) if places or fixed else None


class Timetables:
    """The weeks of a club by its squads' plans; those that plans leave as they were are kept."""

    def __init__(
        self,
        squads: Sequence[PlannedSquad],
        pools: Sequence[Pool],
        kept: ByMonday,
        grounds: Sequence[Ground],
        patience: Patience,
    ) -> None:
        self.squads, self.pools, self.kept, self.grounds = squads, pools, kept, grounds
        self.patience = patience
        self._alone: dict[tuple[object, ...], tuple[Task, Placed]] = {}
        self._known: dict[tuple[object, ...], ClubWeek] = {}

    def unfit(self, plans: Sequence[Plan]) -> list[Unfit]:
        """Return squads that have no whole timetable in a week, though alone they would."""
        squads = [replace(s, plan=plan) for s, plan in zip(self.squads, plans, strict=True)]
        asked = list(dict.fromkeys(ground.monday for ground in self.grounds))
        found = []
        for monday, week in zip(asked, self._weeks(squads, asked), strict=True):
            pairs = zip(week.there, week.alone, week.shared.placed, strict=True)
            for at, alone, placed in pairs:
                ground = self._fullest(at, monday, week)
                if placed.faults > alone.faults and ground is not None:
                    lost = self._lost(squads[at], at, ground, placed.faults - alone.faults)
                    found += [Unfit(at, ground, lost)] if lost else []
        return found

    def _lost(self, squad: PlannedSquad, at: int, ground: int, faults: int) -> int:
        """Return the minutes that a squad is to do without: a session for a fault, one at least."""
        claim = self.grounds[ground].claim(at)
        assert claim is not None
        plan, season = squad.plan, squad.maker.season
        taken = sum(FREE.minutes(season, plan, place, claim.week) for place in claim.places)
        counts = {"field": plan.field[claim.week], "gym": plan.gym[claim.week]}
        sessions = sum(counts[place] for place in claim.places)
        return taken if faults >= sessions else -(-taken * faults // sessions)

    def _weeks(self, squads: list[PlannedSquad], asked: Sequence[dt.date]) -> list[ClubWeek]:
        """Return weeks, two at a time: a solver leaves Python to the others meanwhile."""
        pool = ThreadPoolExecutor(WORKERS)
        try:
            return list(pool.map(lambda monday: self._week(squads, monday), asked))
        finally:
            pool.shutdown(cancel_futures=True)

    def _week(self, squads: list[PlannedSquad], monday: dt.date) -> ClubWeek:
        key = (monday, *(_choices(squad, monday) for squad in squads))
        if key not in self._known:
            self.patience.check()
            pairs = {
                at: self._by_itself(at, squad, monday)
                for at, squad in enumerate(squads)
                if squad.index(monday) is not None
            }
            week = shared_week(squads, self.pools, monday, pairs, liked=False)
            shut = self.kept.get(monday)
            self._known[key] = closed_week(squads, self.pools, week, shut) if shut else week
        return self._known[key]

    def _by_itself(self, at: int, squad: PlannedSquad, monday: dt.date) -> tuple[Task, Placed]:
        key = (at, monday, _choices(squad, monday))
        if key not in self._alone:
            self._alone[key] = alone_week(squad, monday)
        return self._alone[key]

    def _fullest(self, squad: int, monday: dt.date, week: ClubWeek) -> int | None:
        """Return the ground that squads want for the largest share of its minutes."""
        found = [
            (self._wanted(ground, week) / max(1, ground.minutes), at)
            for at, ground in enumerate(self.grounds)
            if ground.monday == monday and ground.chosen_by(squad) and len(ground.claims) > 1
        ]
        return max(found)[1] if found else None

    def _wanted(self, ground: Ground, week: ClubWeek) -> int:
        pool = self.pools[ground.pool]
        here = [each for each in week.booked if pool.takes(each.squad, each.use)]
        return sum(each.end - each.start for each in here)


def _choices(squad: PlannedSquad, monday: dt.date) -> tuple[object, ...] | None:
    """Return what a squad's plan does in a week."""
    week, plan = squad.index(monday), squad.plan
    if week is None:
        return None
    rungs, doses = (tuple(row[week] for row in rows) for rows in (plan.rungs, plan.doses))
    return rungs, doses, plan.field[week], plan.gym[week]
