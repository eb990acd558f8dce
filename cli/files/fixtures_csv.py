"""Fixtures from a CSV file."""

import csv
from collections.abc import Iterator
from pathlib import Path

from cli.files.errors import InputError
from cli.files.fixtures_columns import best_separator
from cli.files.fixtures_found import FoundFixtures, ListFacts
from cli.files.fixtures_head import Row
from cli.files.fixtures_table import table_found
from cli.files.read_text import read_any_text


def find_fixtures_csv(path: Path, asked: ListFacts) -> FoundFixtures:
    """Return the fixtures of ``path`` and what was left out of it.

    One line names the columns, separated by commas, semicolons or tabs; only ``date`` is
    needed. Empty cells and empty lines count for nothing.

    Raises
    ------
    InputError
        With the line number, if anything in it cannot be used.
    """
    return table_found(path, rows_csv(path), asked)


def rows_csv(path: Path) -> list[Row]:
    """Return the rows of ``path``."""
    lines = read_any_text(path).splitlines(keepends=True)
    try:
        return list(_rows(lines))
    except csv.Error as error:
        raise InputError.from_csv(path, error) from None


def _rows(lines: list[str]) -> Iterator[Row]:
    rows = csv.reader(lines, delimiter=best_separator(lines), strict=True)
    line = 1
    for row in rows:
        yield f"line {line}", row
        line = rows.line_num + 1
