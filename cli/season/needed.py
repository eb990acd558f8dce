"""Commands that need a season folder."""

from pathlib import Path

import click

from cli.files.club_file import NAME
from cli.files.errors import InputError
from cli.season.club_folder import ClubFolder, is_club
from cli.season.folder import Folder, folder_of


def needed_folder(scenario: Path) -> Folder:
    """Return the season folder of a scenario, or a club's of its file.

    Raises
    ------
    InputError
        If it is not there.
    click.UsageError
        If it stands alone.
    """
    if scenario.name == NAME and is_club(scenario.parent):
        return ClubFolder(scenario.parent)
    folder = folder_of(scenario)
    if not scenario.exists():
        do = "check its name, or make one with `seasonwright new --fixtures FILE -o FOLDER`"
        raise InputError(scenario, "", "must be a season folder", "nothing of that name", do)
    if folder is None:
        raise click.UsageError(
            f"{scenario} stands alone; this needs a season folder, as `seasonwright new --fixtures "
            "FILE -o FOLDER` makes one"
        )
    return folder
