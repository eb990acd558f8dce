"""What day it is for a command, and the season and plan as they were lived up to it."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, replace

import click

from cli.files.errors import InputError
from cli.files.own_work import read_library
from cli.files.plan_file import read_plan
from cli.files.scenario_file import Loaded
from cli.season.argument import in_force, today
from cli.season.by_group import by_athlete, group_of, of_group
from cli.season.done_csv import read_done
from cli.season.folder import Folder, folder_of
from optimiser.change.decided import Decided
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.progress.done_session import DoneSession
from optimiser.progress.lived import Lived, live, weeks_decided
from optimiser.progress.recorded import squad_records
from optimiser.rule import Rule


@dataclass(frozen=True)
class SeasonToday:
    """A season on one day.

    Parameters
    ----------
    folder
        Its folder; None for a scenario that stands alone and has no today.
    planned
        The plan in force, as it was planned.
    loaded
        The season as it was lived.
    lived
        What is decided of it, and the plan with what was done.
    as_planned
        The season before anything was done in it.
    """

    folder: Folder | None
    day: dt.date | None
    planned: Plan
    loaded: Loaded
    lived: Lived
    as_planned: Season
    sessions: tuple[DoneSession, ...] = ()

    @property
    def decided(self) -> Decided | None:
        """Return what no search may change; None if nothing is over."""
        if not self.lived.weeks:
            return None
        return Decided(self.lived.plan, self.lived.weeks, (self.as_planned, self.planned))


def progress(loaded: Loaded, plan: Plan) -> SeasonToday:
    """Return a season on the day it is; one that stands alone is all ahead.

    Of a group's own season what counts is what that group did.

    Raises
    ------
    InputError
        If what was done cannot be read.
    """
    folder = folder_of(loaded.path)
    if folder is None:
        return SeasonToday(None, None, plan, loaded, Lived(loaded.season, plan, 0), loaded.season)
    day = today()
    told = read_done(folder.done, loaded.season, day)
    weeks = weeks_decided(loaded.season, day, told)
    sessions = of_group(loaded, told) if loaded.group else by_athlete(loaded, told)
    return on_day(loaded, plan, sessions, day, folder, decided=weeks)


def in_progress(loaded: Loaded, rules: Sequence[Rule]) -> SeasonToday | None:
    """Return the season on the day it is, with the plan in force; None without one.

    The files may have been edited since it was put in force.

    Raises
    ------
    InputError
        If the plan in force or what was done cannot be read.
    """
    plan, folder = in_force(loaded.path), folder_of(loaded.path)
    if plan is not None:
        return progress(loaded, read_plan(plan, loaded, rules, other_season=True))
    if folder is not None:
        read_done(
            folder.done, loaded.season, today()
        )  # what is wrong in it is told before a search
    return None


def begun(loaded: Loaded, rules: Sequence[Rule]) -> SeasonToday | None:
    """Return the season on the day it is, if some of it is decided.

    Raises
    ------
    InputError
        If all of it is, so that nothing is left to plan.
    """
    there = in_progress(loaded, rules)
    if there is None or not there.lived.weeks:
        return None
    check_ahead(there)
    return there


def check_ahead(there: SeasonToday) -> None:
    """Refuse to plan a season that is over.

    Raises
    ------
    InputError
        If all its weeks are decided.
    """
    weeks = there.loaded.season.weeks
    if there.lived.weeks >= len(weeks):
        must = "must have a week that is not over yet"
        do = "make the next season with `new`, or give --today"
        path = there.loaded.path
        raise InputError(path, "", must, f"{there.day}, after all {len(weeks)} weeks", do)


def on_day(
    loaded: Loaded,
    plan: Plan,
    sessions: Sequence[DoneSession],
    day: dt.date,
    folder: Folder | None = None,
    decided: int | None = None,
) -> SeasonToday:
    """Return a season on a day, with what was done.

    Parameters
    ----------
    decided
        Weeks that are decided, where more than these sessions tells.
    """
    # what a group did is told as its squad's already
    athletes = 0 if loaded.group else len(group_of(loaded))
    lived = live(loaded.season, plan, sessions, day, full_sets(loaded), decided, athletes)
    done = tuple(squad_records(sessions, athletes))
    there = replace(
        loaded,
        season=lived.season,
        over=lived.weeks,
        done=done,
        today=day,
        planned=(loaded.season, plan),
    )
    return SeasonToday(folder, day, plan, there, lived, loaded.season, tuple(sessions))


def full_sets(loaded: Loaded) -> dict[tuple[int, int], int]:
    """Return the working sets of a full dose, by quality and rung, where the library knows them."""
    library = read_library(loaded)
    found = {}
    for index, quality in enumerate(loaded.season.qualities):
        for rung in range(len(quality.bands)):
            sets = sum(item.sets for item in library.items(quality, rung))
            if sets:
                found[index, rung] = sets
    return found


def tell_unplanned(loaded: Loaded) -> None:
    """Say what weeks that are over count as, where no plan was in force in them."""
    weeks = loaded.season.weeks
    over = min((today() - weeks[0].monday).days // 7, len(weeks))
    if over > 0:
        click.echo(
            f"{over} week{' is' if over == 1 else 's are'} over, and no plan was in force in "
            "them: they count as done as this plan has them. Record what was done with `done`, "
            "then `replan` works from it.",
            err=True,
        )
