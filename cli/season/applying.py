"""Putting a plan, and the season it is for, in force in a season folder."""

from collections.abc import Mapping

import click

from cli.files.scenario_file import Loaded
from cli.season.argument import seen
from cli.season.commit import Action, commit
from cli.season.folder import PLAN, Folder, folder_of
from cli.season.plan_bytes import plan_bytes
from optimiser.domain.document import PlanDocument


def folder_to_apply(loaded: Loaded) -> Folder:
    """Return the folder that ``--apply`` writes to.

    Raises
    ------
    click.UsageError
        If the scenario stands alone, or is that of one group: the plan in force is the squad's.
    """
    if loaded.group:
        raise click.UsageError(
            f"--apply is for the plan of the whole squad, and this is that of {loaded.group}; save "
            "it with --out, or plan on for all groups with `groups FOLDER --apply`"
        )
    folder = folder_of(loaded.path)
    if folder is None:
        raise click.UsageError(
            "--apply needs a season folder, so that it can be taken back; make one with "
            "`seasonwright new --fixtures FILE -o FOLDER`, or name files with --out"
        )
    return folder


def put_in_force(
    folder: Folder,
    action: Action,
    document: PlanDocument,
    files: Mapping[str, bytes] | None = None,
) -> None:
    """Write a plan and the files of its season together, and say how to take it back."""
    put_files(folder, action, {**(files or {}), PLAN: plan_bytes(document)})
    if folder.groups.is_dir() and any(folder.groups.iterdir()):
        click.echo(
            f"The plans of its groups are as they were: `seasonwright groups {folder.path} "
            "--apply` plans them on.",
            err=True,
        )


def put_files(folder: Folder, action: Action, changes: Mapping[str, bytes]) -> None:
    """Write what decides a season together, and say how to take it back."""
    worked_from = {name: data for name, data in seen(folder).items() if name in folder.deciding()}
    number = commit(folder, action, changes, worked_from)
    click.echo(
        f"Applied to {folder.path} as version {number}: {', '.join(changes)}. "
        f"`seasonwright undo {folder.path}` takes it back.",
        err=True,
    )
