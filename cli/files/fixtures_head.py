"""The row of a fixture table that names its columns."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from cli.files.errors import InputError
from cli.files.fixtures_clubs import AWAY, HOME
from cli.files.fixtures_columns import (
    COLUMNS,
    NEEDLESS,
    TITLE_ROWS,
    column_of,
    known_columns,
)
from cli.files.fixtures_dates import ORDERS, clock, day_in, split_cell
from cli.files.fixtures_places import is_place
from cli.files.fixtures_spans import days_of_span
from cli.files.own_columns import misspelt
from cli.files.safe_cell import plain_cell

#: So like a column's name that it can only be that one, misspelt.
MISSPELT = 0.9
#: Columns that may not stand twice; of others the first counts.
ALONE = ("date", "opponent", HOME, AWAY)
#: Where a row stands, and its cells.
Row = tuple[str, Sequence[str]]


@dataclass(frozen=True)
class Head:
    """What a table says of its columns.

    Parameters
    ----------
    columns
        What each column is, "" where it is not known.
    names
        As they stand in the table.
    rows
        What stands below.
    titles
        What stands above, cell by cell.
    guessed
        Whether columns were told by what they hold, not by their names.
    """

    columns: list[str]
    names: list[str]
    rows: Sequence[Row]
    titles: list[str]
    guessed: bool = False

    @property
    def notices(self) -> list[str]:
        """Return a sentence on columns that are not read."""
        pairs = [pair for pair in zip(self.names, self.columns, strict=True) if pair[0]]
        strange = [name for name, column in pairs if not column]
        needless = [name for name, column in pairs if column == NEEDLESS]
        told = [f"columns left out, as no plan needs them: {', '.join(needless)}"]
        told = told if needless else []
        if not any(self.names):
            read = ", ".join(filter(None, self.columns))
            told.append(f"no line names the columns; by what they hold they are read as {read}")
        if strange:
            told.append(f"columns left out, as they are not known: {', '.join(strange)}")
        return told


def names_dates(rows: Sequence[Row]) -> bool:
    """Return whether rows are a table that has dates."""
    return any(known_columns(cells) for _, cells in rows[:TITLE_ROWS]) or bool(_dated(rows))


def head_of(path: Path, rows: Sequence[Row]) -> Head:
    """Return the columns of a table, the first rows of which may be a title.

    Raises
    ------
    InputError
        If no row names them and what they hold does not tell, or one is there twice.
    """
    number, guessed = _row_of_names(rows)
    if number is None:
        return _by_cells(path, rows)
    where, cells = rows[number] if rows else ("line 1", [])
    names = [" ".join(name.split()) for name in cells]
    while names and not names[-1]:
        names.pop()
    columns = [column_of(name) for name in names]
    if guessed is not None:
        columns[guessed] = "date"
        columns = [
            "" if column == "date" and place != guessed else column
            for place, column in enumerate(columns)
        ]
    columns = _with_places(columns, rows[number + 1 :])
    _check(path, where, names, columns)
    columns = [
        column if column not in columns[:place] or column == NEEDLESS else ""
        for place, column in enumerate(columns)
    ]
    titles = [cell for _, row in rows[:number] for cell in row if cell.strip()]
    return Head(columns, names, rows[number + 1 :], titles, guessed is not None)


def _with_places(columns: list[str], rows: Sequence[Row]) -> list[str]:
    """Let a column that says nothing but H, A and N be the venue, whatever its name means."""
    if "venue" in columns:
        return columns
    for place, column in enumerate(columns):
        spare = column not in ("date", "opponent", NEEDLESS) or columns.count(column) > 1
        held = [cells[place].strip() for _, cells in rows if place < len(cells)]
        filled = [cell for cell in held if cell]
        if spare and filled and all(is_place(cell) for cell in filled):
            return [*columns[:place], "venue", *columns[place + 1 :]]
    return columns


def _row_of_names(rows: Sequence[Row]) -> tuple[int | None, int | None]:
    """Return which row names the columns, and which column holds dates if no name says so."""
    known = [known_columns(cells) for _, cells in rows[:TITLE_ROWS]]
    if any(known):
        return known.index(max(known)), None
    dated = _dated(rows)
    if dated is None:
        return (None if _has_days(rows) else 0), None
    number, column = dated
    return (None, None) if column is None else (number, column)


def _dated(rows: Sequence[Row]) -> tuple[int, int | None] | None:
    """Return a row of names and the column with a date in every row below it.

    The column is None where that row holds a date itself. A row of one cell, such as the name of
    a break, counts for nothing: it stands between matches, and names no columns.
    """
    told = [cells for _, cells in rows]
    for number, names in enumerate(told[:TITLE_ROWS]):
        below = [cells for cells in told[number + 1 :] if _filled(cells) > 1] or told[number + 1 :]
        for column in range(len(names)):
            held = [cells[column] for cells in below if column < len(cells)]
            if held and len(held) == len(below) and all(map(_is_day, held)):
                return number, (None if _is_day(names[column]) else column)
    return None


def _filled(cells: Sequence[str]) -> int:
    return sum(bool(cell.strip()) for cell in cells)


def _is_day(cell: str) -> bool:
    day, _ = split_cell(plain_cell(cell.strip()))
    return any(day_in(day, order) or days_of_span(day, order) for order in ORDERS)


def _has_days(rows: Sequence[Row]) -> bool:
    return any(_is_day(cell) for _, cells in rows for cell in cells)


def _by_cells(path: Path, rows: Sequence[Row]) -> Head:
    """Tell the columns of a table without names by what they hold."""
    held = [list(row) for _, row in rows if any(map(_is_day, row))]
    width = max(map(len, held))
    columns: list[str] = []
    for place in range(width):
        cells = [row[place] for row in held if place < len(row) and row[place].strip()]
        columns.append(_kind(cells, columns))
    if "date" not in columns:
        raise _no_names(path, rows[0][0], rows[0][1])
    return Head(columns, [""] * width, rows, [], guessed=True)


def _kind(cells: Sequence[str], before: Sequence[str]) -> str:
    tests = (("date", _is_day), ("kickoff", _is_clock), ("venue", is_place), ("opponent", str))
    told = (name for name, test in tests if cells and all(map(test, cells)) and name not in before)
    return next(told, "")


def _is_clock(cell: str) -> bool:
    return clock(cell) is not None


def _check(path: Path, where: str, names: list[str], columns: list[str]) -> None:
    for name, column in zip(names, columns, strict=True):
        meant = misspelt(name.strip().lower(), COLUMNS, (), MISSPELT)
        if meant and not column:
            must = f"columns must be among {', '.join(COLUMNS)}"
            raise InputError(path, where, must, f'"{name}"', f"did you mean {meant}?")
    twice = [name for name in columns if name in ALONE and columns.count(name) > 1]
    if twice:
        same = [name for name, column in zip(names, columns, strict=True) if column == twice[0]]
        raise InputError(
            path,
            where,
            "a column must come once",
            f"{twice[0]} twice ({', '.join(same)})",
            "take one out; of several teams side by side keep one team's columns",
        )
    if "date" not in columns:
        raise _no_names(path, where, names)


def _no_names(path: Path, where: str, names: Sequence[str]) -> InputError:
    return InputError(
        path,
        where,
        "the first line must name the columns, date among them",
        ", ".join(name for name in names if name) or "an empty line",
        f"start the file with a line such as {','.join(COLUMNS[:3])}",
    )
