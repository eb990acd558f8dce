"""Columns of a person's own in a table: kept as they are and not read, which is said once."""

from collections.abc import Collection, Sequence
from difflib import SequenceMatcher
from pathlib import Path

import click

from cli.files.errors import InputError
from cli.files.safe_cell import safe_cell
from optimiser.domain.wording import listed

#: So much alike, a name is taken for a column's, misspelt: what it says must not get lost.
MISSPELT = 0.85
#: Commands that work with what is known of athletes: they say what is not read of it.
TELLING = ("cards", "groups", "tests")
#: Where a command keeps of which files it has told, in click's own store.
TOLD = "seasonwright.own_columns"


def misspelt(
    name: str, known: Collection[str], there: Collection[str], alike: float = MISSPELT
) -> str | None:
    """Return the column that a name was meant for, if it is not there by its own name."""
    likes = {
        column: SequenceMatcher(None, name, column).ratio()
        for column in known
        if column not in there
    }
    best = max(likes, key=lambda column: likes[column], default=None)
    return best if best is not None and likes[best] >= alike else None


def meant_for(path: Path, name: str, column: str, where: str = "line 1") -> InputError:
    """Return the error of a column that was misspelt."""
    must = "a column must have its own name"
    do = f"did you mean {column}? if it is one of your own, name it less alike"
    return InputError(path, where, must, f'"{name}"', do)


def tell_own(path: Path, names: Sequence[str]) -> None:
    """Say once which columns of a file are not read, in commands that work with athletes."""
    # the page's threads have no command around them: it shows what is read itself
    context = click.get_current_context(silent=True)
    if context is None or context.command.name not in TELLING or not any(names):
        return
    told: set[str] = context.find_root().meta.setdefault(TOLD, set())
    if str(path.resolve()) not in told:
        told.add(str(path.resolve()))
        shown = listed([str(safe_cell(name)) for name in names if name])
        click.echo(f"{path.name}: not read, and kept as they are: {shown}.", err=True)
