"""The cards of a squad's week, from the files that a season keeps."""

import datetime as dt
from collections.abc import Sequence
from pathlib import Path

import click

from cli.days import week_maker, written_days
from cli.files.errors import InputError
from cli.files.own_work import read_kit, read_library, squad_at
from cli.files.plan_file import read_plan
from cli.files.scenario_file import Loaded
from cli.holding import (
    athlete_hold,
    find_availability,
    find_logged,
    find_measured,
    find_minutes,
    restart_of,
    with_minutes,
)
from cli.season.progress import progress
from cli.squad_groups import as_planned
from constraints.deload import Deload
from constraints.taper import Taper
from optimiser.athlete.card import Card, ChosenBand, WeekInfo, week_choices, week_info
from optimiser.athlete.cards import card
from optimiser.athlete.logged import with_logged
from optimiser.athlete.measured import as_measured
from optimiser.athlete.squad import Athlete
from optimiser.days.retests import retest_days, retest_weeks
from optimiser.days.school import own_words
from optimiser.days.session_days import for_athlete, with_days
from optimiser.days.week_plan import OwnTime
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.domain.week_number import number_of
from optimiser.rule import Rule


class CardFiles:
    """The athletes, what is entered about them, and the exercises and equipment they have.

    Parameters
    ----------
    given
        Squad file in place of the scenario's.
    availability
        File of entries in place of the one beside the squad file.
    tests, minutes
        Files of dated tests and of minutes played, in place of those beside the squad file.

    Raises
    ------
    InputError
        If a file cannot be used, or the scenario names no squad.
    """

    def __init__(
        self,
        loaded: Loaded,
        given: Path | None = None,
        availability: Path | None = None,
        tests: Path | None = None,
        minutes: Path | None = None,
    ) -> None:
        self.library, self.kit = read_library(loaded), read_kit(loaded)
        path = _squad_path(loaded, given)
        self.squad = squad_at(path, loaded)
        self.entered = find_availability(availability, path, self.squad, self.library.tags)
        self.played = find_minutes(minutes, path, self.squad, loaded.season)
        self.measured = find_measured(tests, path, self.squad, self.library.exercises)
        self.logged = find_logged(loaded, self.library.exercises)

    def tested(self, athlete: Athlete, monday: dt.date) -> Athlete:
        """Return an athlete as tests and logged sets before a day show them."""
        found = as_measured(athlete, self.measured, monday)
        return with_logged(found, self.logged, self.library.exercises, monday)


def week_cards(
    loaded: Loaded,
    rules: Sequence[Rule],
    index: int,
    files: CardFiles,
    athletes: Sequence[Athlete],
    plan: Path | None,
    folder: Path | None = None,
) -> list[Card]:
    """Return the cards of week ``index`` (from 0), one for each of ``athletes``.

    Parameters
    ----------
    plan, folder
        The plan of all, and a folder of plans by group that beat it.
    """
    weeks, restart = _Weeks(loaded, rules, index), restart_of(rules)
    made = [
        in_own_time(
            each,
            weeks.own_times(path),
            card(
                files.tested(each, loaded.season.weeks[index].monday),
                weeks.choices(path),
                for_athlete(
                    with_minutes(weeks.info(path), files.played.get(each.name, {})),
                    each,
                    files.entered.of(each.name),
                ),
                files.library,
                files.kit,
                athlete_hold(each, files.entered, loaded.season, index, restart),
            ),
        )
        for each in athletes
        for path in [_plan_of(each, plan, folder)]
    ]
    weeks.tell_apart()
    return made


class _Weeks:
    """One week of each plan file in use, read once."""

    def __init__(self, loaded: Loaded, rules: Sequence[Rule], index: int) -> None:
        self._loaded, self._rules, self._index = loaded, rules, index
        self._read: dict[Path, tuple[list[ChosenBand], WeekInfo]] = {}
        self._slots: dict[Path, tuple[tuple[str, dt.date], ...]] = {}
        self._own_times: dict[Path, tuple[OwnTime, ...]] = {}

    def choices(self, path: Path) -> list[ChosenBand]:
        """Return what the plan in ``path`` asks for."""
        return self._week(path)[0]

    def info(self, path: Path) -> WeekInfo:
        """Return what its cards say about the week."""
        return self._week(path)[1]

    def own_times(self, path: Path) -> tuple[OwnTime, ...]:
        """Return when those at school do what the squad does meanwhile."""
        self._week(path)
        return self._own_times[path]

    def tell_apart(self) -> None:
        """Say so if the groups' plans have not the same days: they are not of one search."""
        if len(set(self._slots.values())) > 1:
            names = ", ".join(path.name for path in self._slots)
            click.echo(
                f"{names}: not the same days in week {number_of(self._index)}; these plans were "
                "not found together. Run `groups` again to have them share their sessions.",
                err=True,
            )

    def _week(self, path: Path) -> tuple[list[ChosenBand], WeekInfo]:
        if path not in self._read:
            loaded, rules = as_planned(path, self._loaded, self._rules)
            there = progress(loaded, read_plan(path, loaded, rules))
            plan, season = there.lived.plan, there.loaded.season
            written = written_days(path, season)[self._index]
            if written:
                self._slots[path] = tuple((part.place, part.date) for part in written)
            maker = week_maker(loaded, rules)
            days = maker.week(plan, self._index, written)
            told = week_info(season, plan, self._index, restart_of(rules))
            told = told.model_copy(update={"retest": self._retest(plan, season, rules)})
            info = with_days(told, days, maker)
            self._own_times[path] = days.own_times
            self._read[path] = week_choices(season, plan, self._index), info
        return self._read[path]

    def _retest(self, plan: Plan, season: Season, rules: Sequence[Rule]) -> tuple[dt.date, ...]:
        """Return the days of the week on which to test again."""
        lighter, tapers = (
            frozenset().union(*(rule.marks(plan, season) for rule in rules if isinstance(rule, of)))
            for of in (Deload, Taper)
        )
        again = retest_weeks(season, lighter, tapers)
        return retest_days(season, self._index) if self._index in again else ()


def in_own_time(athlete: Athlete, times: Sequence[OwnTime], made: Card) -> Card:
    """Return a card with times of their own for somebody who is at school while others train."""
    if not athlete.young or not times:
        return made
    own = {(each.date, each.use): each.start for each in times if each.start}
    sessions = tuple(
        each.model_copy(update={"start": own[each.date, each.place], "own_time": True})
        if (each.date, each.place) in own
        else each
        for each in made.sessions
    )
    stuck = [own_words(each) for each in times if not each.start]
    notes = made.notes
    if stuck:
        notes += (f"in hours of school, agree it with the school or leave it: {'; '.join(stuck)}",)
    return made.model_copy(update={"sessions": sessions, "notes": notes})


def _plan_of(athlete: Athlete, plan: Path | None, folder: Path | None) -> Path:
    """Return the file an athlete's plan is in: that of the group, if there is one."""
    own = None if folder is None else folder / f"{athlete.group}.json"
    if own is not None and own.is_file():
        return own
    if plan is not None:
        return plan
    raise InputError(
        own or "",
        "",
        f"must be there for {athlete.name}, group {athlete.group}",
        "no such file",
        "name the folder that `groups` wrote, or give a PLAN for groups without one",
    )


def _squad_path(loaded: Loaded, given: Path | None) -> Path:
    if given is not None:
        return given
    if loaded.scenario.squad_file is None:
        raise InputError(
            loaded.path, "squad_file", "must be given", "nothing", "add it, or use --squad FILE"
        )
    return loaded.path.parent / loaded.scenario.squad_file
