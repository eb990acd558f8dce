"""Take the last applied change of a season folder back, or do it again."""

import datetime as dt
from collections.abc import Callable
from pathlib import Path

import click

from cli.season.argument import history_argument, today
from cli.season.commit import step_back, step_on
from cli.season.folder import Folder
from cli.season.history import Version
from cli.season.needed import needed_folder


@click.command("undo")
@history_argument
def undo_command(scenario: Path) -> None:
    """Take the last applied change of a season FOLDER back.

    Only the files it changed are put back as they were; what people have changed in others since
    stays. A file that was changed both by it and since is never overwritten: the difference is
    shown.
    """
    _step(needed_folder(scenario), step_back, "Took back")


@click.command("redo")
@history_argument
def redo_command(scenario: Path) -> None:
    """Do again what `undo` took back last in a season FOLDER."""
    _step(needed_folder(scenario), step_on, "Did again")


def _step(folder: Folder, turn: Callable[[Folder, dt.date], Version | None], said: str) -> None:
    version = turn(folder, today())
    if version is None:
        click.echo(f"{folder.path}: there is nothing to {'undo' if turn is step_back else 'redo'}.")
        return
    files, words = ", ".join(version.touched), version.words.rstrip(".")
    click.echo(f"{said} {version.action} (version {version.id}): {words}. Files: {files}.")
