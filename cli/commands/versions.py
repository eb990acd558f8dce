"""The applied states of a season folder: list, name, compare, restore."""

from pathlib import Path

import click

from cli.options import FROM_ONE
from cli.render.versions_text import compared_text, versions_text
from cli.season.argument import history_argument, today
from cli.season.commit import restore
from cli.season.folder import Folder
from cli.season.history import Version, opened
from cli.season.needed import needed_folder


@click.command("versions")
@history_argument
@click.option("--name", "named", metavar="TEXT", help="Name the version that stands, or --of one.")
@click.option("--of", "number", type=FROM_ONE, help="The version to name.")
@click.option(
    "--compare",
    nargs=2,
    type=FROM_ONE,
    metavar="A B",
    help="Show what is different from version A to version B.",
)
@click.option(
    "--restore",
    "restored",
    type=FROM_ONE,
    metavar="N",
    help="Put season and plan of version N in force from here on; can be undone.",
)
def versions_command(
    scenario: Path,
    named: str | None,
    number: int | None,
    compare: tuple[int, int] | None,
    restored: int | None,
) -> None:
    """List every applied state of a season FOLDER, newest last; > marks the one that stands."""
    folder = needed_folder(scenario)
    if named is not None:
        _name(folder, named, number)
    elif number is not None:
        raise click.UsageError("--of says which version to --name")
    if compare:
        _compare(folder, *compare)
    elif restored is not None:
        made = restore(folder, _version(folder, restored), today())
        click.echo(f"Restored version {restored} as version {made}; what was done stays.")
    else:
        with opened(folder.history) as history:
            click.echo(versions_text(history.versions(), history.current()))


def _name(folder: Folder, name: str, number: int | None) -> None:
    with opened(folder.history) as history:
        chosen = number or history.current()
        if chosen is None or history.version(chosen) is None:
            raise click.BadParameter(f"must be a version (got {chosen})", param_hint="--of")
        history.rename(chosen, name.strip()[:80])


def _version(folder: Folder, number: int) -> Version:
    with opened(folder.history) as history:
        found = history.version(number)
        last = len(history.versions())
    if found is None:
        raise click.BadParameter(f"must be a version, 1 to {last} (got {number})")
    return found


def _compare(folder: Folder, first: int, second: int) -> None:
    one, other = _version(folder, first), _version(folder, second)
    with opened(folder.history) as history:
        states = history.state(first), history.state(second)
    click.echo(compared_text(one, other, *states))
