"""The plans of a squad's groups in a season folder, and each group's season as it was lived."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from cli.files.plan_file import read_plan
from cli.files.scenario_file import Loaded
from cli.season.argument import in_force
from cli.season.folder import Folder, folder_of
from cli.season.progress import SeasonToday, check_ahead, progress
from cli.squad_groups import loaded_for
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose
from optimiser.domain.season import Season
from optimiser.groups.member import Member, members_of
from optimiser.rule import Rule


@dataclass(frozen=True)
class GroupProgress:
    """A group's season on one day.

    Parameters
    ----------
    member
        The group with its season as it was lived, and what is decided of it.
    path
        The file of the plan it is lived by: the group's own, or the squad's.
    """

    member: Member
    there: SeasonToday
    path: Path


def groups_begun(loaded: Loaded, members: Sequence[Member]) -> list[GroupProgress] | None:
    """Return every group on the day it is; None if nothing is over, or no plan was in force.

    A group without a plan of its own has lived by the squad's. As many weeks are decided for all.

    Raises
    ------
    InputError
        If a plan or what was done cannot be read, or the season is over.
    """
    folder = folder_of(loaded.path)
    if folder is None:
        return None
    paths = {member.name: _plan_file(folder, member.name) for member in members}
    if None in paths.values():
        return None
    found = []
    for member in members:
        path = paths[member.name]
        assert path is not None
        there = group_progress(loaded, member, path)
        if there.decided is None:
            return None
        season = there.loaded.season.model_copy(update={"name": member.season.name})
        lived = replace(member, season=season, decided=there.decided)
        found.append(GroupProgress(lived, there, path))
    check_ahead(found[0].there)
    return found


def groups_in_progress(loaded: Loaded, rules: Sequence[Rule]) -> dict[str, SeasonToday]:
    """Return the season of every group that has a plan in force, by its name.

    Raises
    ------
    InputError
        If a plan or what was done cannot be read.
    """
    folder = folder_of(loaded.path)
    if folder is None or not folder.groups_in_force():
        return {}
    return {
        member.name: group_progress(loaded, member, folder.group_plan(member.name))
        for member in members_of(loaded.season, rules, loaded.scenario.groups)
        if folder.group_plan(member.name).exists()
    }


def group_progress(loaded: Loaded, member: Member, path: Path) -> SeasonToday:
    """Return one group's season on the day it is, lived by the plan in a file.

    The files may have been edited since the plan was made.

    Raises
    ------
    InputError
        If the plan or what was done cannot be read.
    """
    own = loaded_for(loaded, member)
    plan = read_plan(path, own, member.rules, other_season=True)
    return progress(own, closed_as(plan, member.season))


def _plan_file(folder: Folder, group: str) -> Path | None:
    own = folder.group_plan(group)
    return own if own.exists() else in_force(folder.scenario)


def closed_as(plan: Plan, season: Season) -> Plan:
    """Return a plan with nothing in the weeks that are closed in a season."""
    shut = {week.index for week in season.weeks if week.closed}
    return Plan(
        starts=tuple(week for week in plan.starts if week not in shut),
        rungs=tuple(
            tuple(None if at in shut else rung for at, rung in enumerate(row)) for row in plan.rungs
        ),
        doses=tuple(
            tuple(Dose.NONE if at in shut else dose for at, dose in enumerate(row))
            for row in plan.doses
        ),
        field=tuple(0 if at in shut else count for at, count in enumerate(plan.field)),
        gym=tuple(0 if at in shut else count for at, count in enumerate(plan.gym)),
    )
