"""The first line of a table, which names its columns, and rows no wider than it."""

from collections.abc import Callable, Sequence
from pathlib import Path

from cli.files.csv_rows import any_filled, cells_by_column
from cli.files.errors import InputError
from cli.files.known_keys import nearest
from optimiser.domain.wording import counted

#: Returns what is wrong with a column nobody knows; None for one that is known.
Unknown = Callable[[str], InputError | None]


def read_head(
    path: Path,
    header: Sequence[str],
    needed: Sequence[str],
    unknown: Unknown,
    where: str = "line 1",
) -> list[str]:
    """Return the names of the columns, small and without blanks, checked.

    Raises
    ------
    InputError
        If one is unknown or twice there, or one that must be there is not.
    """
    names = plain_names(header)
    for name in names:
        if error := unknown(name):
            raise error
    check_names(path, names, needed, where)
    return names


def plain_names(header: Sequence[str]) -> list[str]:
    """Return the names of columns small and without blanks, empty ones at the end left out."""
    names = ["_".join(name.lower().split()) for name in header]
    while names and not names[-1]:
        names.pop()
    return names


def check_names(
    path: Path, names: Sequence[str], needed: Sequence[str], where: str = "line 1"
) -> None:
    """Raise InputError if a column is twice there, or one that must be there is not."""
    twice = [name for name in names if name and names.count(name) > 1]
    if twice:
        must = "a column must come once"
        raise InputError(path, where, must, f"{twice[0]} twice", "take one out")
    missing = [name for name in needed if name not in names]
    if missing:
        must = f"the first line must name the columns, {', '.join(needed)} among them"
        raise InputError(path, where, must, f"no {missing[0]}", "add the column")


def unlisted(
    path: Path, known: Sequence[str], told: Sequence[str] = (), where: str = "line 1"
) -> Unknown:
    """Return what tells of a column that is not ``known``.

    Parameters
    ----------
    told
        Those that people are told of; left out, all of them.
    """

    def error(name: str) -> InputError | None:
        if name in known:
            return None
        close = nearest(name, known)
        do = f"did you mean {close}?" if close else "take the column out"
        must = f"columns must be among {', '.join(told or known)}"
        return InputError(path, where, must, f'"{name}"', do)

    return error


def cells_of_row(
    path: Path,
    where: str,
    columns: Sequence[str],
    row: Sequence[str],
    do: str = "put text that holds a comma in double quotes",
) -> dict[str, str]:
    """Return the cells of a row that hold something, by column.

    Raises
    ------
    InputError
        If it is wider than the first line.
    """
    if any_filled(row[len(columns) :]):
        must = f"must have at most {counted(len(columns), 'cell')}, one a column"
        raise InputError(path, where, must, str(len(row)), do)
    return cells_by_column(columns, row)
