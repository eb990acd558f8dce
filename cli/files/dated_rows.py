"""Rows of a small CSV table with a date in it, each with where it stands."""

import datetime as dt
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from cli.files.csv_head import cells_of_row, read_head, unlisted
from cli.files.csv_rows import any_filled, csv_rows
from cli.files.errors import InputError
from cli.files.read_text import read_any_text


@dataclass(frozen=True)
class DatedRow:
    """Cells that are not empty, by column."""

    path: Path
    where: str
    cells: dict[str, str]

    def need(self, column: str) -> str:
        """Return a cell; raise InputError if it is empty."""
        if column not in self.cells:
            raise self.error(column, "must be given", "fill it in")
        return self.cells[column]

    def date(self, column: str) -> dt.date:
        """Return a cell as a date; raise InputError if it is none."""
        text = self.need(column)
        try:
            return dt.date.fromisoformat(text)
        except ValueError:
            raise self.error(
                column, "must be a date such as 2026-09-05, year first", "write it so"
            ) from None

    def error(self, column: str, must: str, do: str) -> InputError:
        """Return the error of a cell."""
        got = f'"{self.cells[column]}"' if column in self.cells else "an empty cell"
        return InputError(self.path, f"{self.where}, {column}", must, got, do)


def dated_rows(path: Path, needed: Sequence[str], columns: Sequence[str]) -> Iterator[DatedRow]:
    """Yield the rows of ``path`` that are not empty.

    The first line names the columns, in any order, separated by commas, semicolons or tabs.

    Raises
    ------
    InputError
        If a column is unknown, twice there or missing, or a row has too many cells.
    """
    lines = read_any_text(path).splitlines(keepends=True)
    head = lines[0] if lines else ""
    sign = max(",;\t", key=head.count)
    rows = csv_rows(path, lines, sign)
    names = read_head(path, next(rows, (1, []))[1], needed, unlisted(path, columns))
    for line, row in rows:
        if any_filled(row):
            where = f"line {line}"
            yield DatedRow(path, where, cells_of_row(path, where, names, row))
