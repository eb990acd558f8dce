"""Commands that need a season folder."""

from pathlib import Path

import click

from cli.season.folder import Folder, folder_of


def needed_folder(scenario: Path) -> Folder:
    """Return the season folder of a scenario.

    Raises
    ------
    click.UsageError
        If it stands alone.
    """
    folder = folder_of(scenario)
    if folder is None:
        raise click.UsageError(
            f"{scenario} stands alone; this needs a season folder, as `seasonwright new --fixtures "
            "FILE -o FOLDER` makes one"
        )
    return folder
