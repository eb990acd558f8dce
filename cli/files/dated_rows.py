"""Rows of a small CSV table with a date in it, each with where it stands."""

import datetime as dt
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from cli.files.csv_head import cells_of_row, check_names, plain_names
from cli.files.csv_rows import any_filled, csv_rows, is_comment
from cli.files.errors import InputError
from cli.files.fixtures_dates import NUMBERS, date_order, day_in, split_cell
from cli.files.fixtures_found import DateOrder
from cli.files.known_keys import nearest
from cli.files.own_columns import meant_for, misspelt, tell_own
from cli.files.read_text import read_any_text
from cli.files.rows_added import separator_of

#: Columns of all these tables that hold dates.
DATES = ("date", "from", "to")


@dataclass(frozen=True)
class DatedRow:
    """Cells that are not empty, by column.

    Parameters
    ----------
    order
        Of day and month in the dates of the file; empty where they do not tell.
    """

    path: Path
    where: str
    cells: dict[str, str]
    order: DateOrder = ""

    def need(self, column: str) -> str:
        """Return a cell; raise InputError if it is empty."""
        if column not in self.cells:
            raise self.error(column, "must be given", "fill it in")
        return self.cells[column]

    def date(self, column: str) -> dt.date:
        """Return a cell as a date; raise InputError if it is none."""
        text = split_cell(self.need(column))[0]
        found = day_in(text, self.order)
        if found is None:
            unsure = bool(NUMBERS.fullmatch(text)) and not self.order
            must = "must tell the day from the month" if unsure else "must be a date"
            raise self.error(column, must, "write it year first, such as 2026-09-05")
        return found

    def athlete(self, names: Collection[str]) -> str:
        """Return who a row is of, as the squad file spells it; raise InputError if nobody there."""
        given, known = self.need("athlete"), {name.casefold(): name for name in names}
        if given.casefold() not in known:
            close = nearest(given.casefold(), known)
            do = f"did you mean {known[close]}?" if close else "write the name as in the squad file"
            raise self.error("athlete", "must be an athlete of the squad", do)
        return known[given.casefold()]

    def error(self, column: str, must: str, do: str) -> InputError:
        """Return the error of a cell."""
        got = f'"{self.cells[column]}"' if column in self.cells else "an empty cell"
        return InputError(self.path, f"{self.where}, {column}", must, got, do)


def dated_rows(path: Path, needed: Sequence[str], columns: Sequence[str]) -> list[DatedRow]:
    """Return the rows of ``path`` that are not empty.

    The first line names the columns, in any order, separated by commas, semicolons or tabs; others
    are a person's own and are not read. Lines that begin with # are comments. Dates
    are as spreadsheets write them, where all of them together tell the day from the month.

    Raises
    ------
    InputError
        If a column is misspelt, twice there or missing, or a row has too many cells.
    """
    lines = read_any_text(path).splitlines(keepends=True)
    head = next((line for line in lines if line.strip() and not is_comment([line])), "")
    rows = csv_rows(path, lines, separator_of(head))
    filled = [(line, row) for line, row in rows if any_filled(row) and not is_comment(row)]
    names = _names(path, *(filled[0] if filled else (1, [])), needed, columns)
    found = [
        DatedRow(path, where, cells_of_row(path, where, names, row))
        for line, row in filled[1:]
        for where in [f"line {line}"]
    ]
    dates = [row.cells[name] for row in found for name in DATES if name in row.cells]
    order, _ = date_order([split_cell(date)[0] for date in dates])
    return [replace(row, order=order) for row in found]


def _names(
    path: Path, line: int, header: Sequence[str], needed: Sequence[str], columns: Sequence[str]
) -> list[str]:
    """Return the names of the columns, empty for those of a person's own."""
    names, own, where = plain_names(header), [], f"line {line}"
    for at, name in enumerate(names):
        if name and name not in columns:
            if meant := misspelt(name, columns, names):
                raise meant_for(path, name, meant, where)
            names[at] = ""
            own.append(header[at].strip())
    check_names(path, names, needed, where)
    tell_own(path, own)
    return names
