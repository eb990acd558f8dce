"""One way to name a season for every command: a scenario file, or a season folder."""

import datetime as dt
from pathlib import Path
from typing import Any

import click

from cli.options import PATH, Command
from cli.season.club_folder import is_club, open_club
from cli.season.commit import open_folder
from cli.season.folder import Folder, folder_of

#: Where a command keeps what it was told, in click's own store.
TODAY, SEEN = "seasonwright.today", "seasonwright.seen"
NO_TODAY = "--today is for a season folder: a scenario that stands alone is all ahead"
NO_PLAN = "Name PLAN, or a season folder that has a plan in force (`plan FOLDER` puts one there)."
OF_GROUPS = (
    "Name PLAN: {}. The plans in force are those of the groups; `groups FOLDER` plans on for all "
    "of them together, and `plan FOLDER` puts a plan of the whole squad beside them."
)


class SeasonPath(click.Path):
    """A scenario file; a season folder stands for the scenario in it."""

    name = "season"

    def __init__(self) -> None:
        super().__init__(path_type=Path)

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Path:
        """Return the scenario file, after a write that was broken off has been finished."""
        path = Path(str(super().convert(value, param, ctx)))
        folder = open_folder(path) if path.is_dir() else folder_of(path)
        if folder is None:
            if ctx is not None and TODAY in ctx.meta:
                raise click.UsageError(NO_TODAY)
            return path
        if folder.path != path:
            open_folder(folder.path)
        if ctx is not None:
            ctx.meta[SEEN] = folder.now()
        return folder.scenario


class KeptPath(SeasonPath):
    """The same, or the folder of a club, which has a history too."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Path:
        """Return the scenario file, or the club's, after a broken-off write has been finished."""
        path = Path(str(value))
        return open_club(path).scenario if is_club(path) else super().convert(value, param, ctx)


def today_option(command: Command) -> Command:
    """Add the option ``--today``."""
    return click.option(
        "--today",
        callback=_today,
        expose_value=False,
        metavar="DATE",
        help="The day it is, for a season folder; left out, that of the clock.",
    )(command)


def season_argument(command: Command) -> Command:
    """Add the argument SCENARIO, which may be a season folder, and the option ``--today``."""
    command = today_option(command)
    return click.argument("scenario", type=SeasonPath())(command)


def history_argument(command: Command) -> Command:
    """Add the argument SCENARIO, which may be the folder of a club too, and ``--today``."""
    command = today_option(command)
    return click.argument("scenario", type=KeptPath())(command)


def plan_argument(command: Command) -> Command:
    """Add the argument PLAN; left out, it is the plan in force of a season folder.

    The name of a group, such as ``starters``, stands for the plan in force of that group.
    """
    return click.argument("plan", type=PATH, required=False, callback=_plan)(command)


def in_force(scenario: Path) -> Path | None:
    """Return the plan in force, if the scenario is that of a season folder that has one."""
    folder = folder_of(scenario)
    return folder.plan if folder and folder.plan.exists() else None


def stands_in_force(scenario: Path, plan: Path) -> bool:
    """Tell whether a plan file is that of the squad or of a group in the season's own folder."""
    folder = folder_of(scenario)
    if folder is None:
        return False
    groups = [folder.group_plan(group) for group in folder.groups_in_force()]
    return plan in (folder.plan, *groups)


def seen(folder: Folder) -> dict[str, bytes | None]:
    """Return what stood in the folder when the command began."""
    # the page's threads have no command around them: what they see is what stands now
    context = click.get_current_context(silent=True)
    found = context.find_root().meta.get(SEEN) if context else None
    return found if isinstance(found, dict) else folder.now()


def today() -> dt.date:
    """Return the day it is: that of ``--today``, or of the clock."""
    # the page's threads have no command around them: for them it is the day of the clock
    context = click.get_current_context(silent=True)
    given = context.meta.get(TODAY) if context else None
    return given if isinstance(given, dt.date) else dt.date.today()


def _today(ctx: click.Context, option: click.Parameter, text: str | None) -> None:
    if text is None:
        return
    scenario = ctx.params.get("scenario")
    if isinstance(scenario, Path) and folder_of(scenario) is None:
        raise click.UsageError(NO_TODAY)
    try:
        ctx.meta[TODAY] = dt.date.fromisoformat(text)
    except ValueError:
        raise click.BadParameter(f"must be a date such as 2026-10-03 (got {text!r})") from None


def named_plan(scenario: Path, given: Path | None) -> Path | None:
    """Return the plan that is meant: a file, a group's by its name, or the one in force.

    None if none is named and none is in force.
    """
    folder = folder_of(scenario)
    if folder and given and not given.exists() and str(given) in folder.groups_in_force():
        return folder.group_plan(str(given))
    return given or in_force(scenario)


def _plan(ctx: click.Context, argument: click.Parameter, plan: Path | None) -> Path:
    scenario = ctx.params.get("scenario")
    if not isinstance(scenario, Path):
        raise click.UsageError(NO_PLAN)
    found = named_plan(scenario, plan)
    if found is None:
        folder = folder_of(scenario)
        groups = folder.groups_in_force() if folder else []
        raise click.UsageError(OF_GROUPS.format(" or ".join(groups)) if groups else NO_PLAN)
    return found
