"""Rows of a CSV table, each with the line it starts on."""

import csv
from collections.abc import Iterator, Sequence
from pathlib import Path

from cli.files.errors import InputError


def csv_rows(path: Path, lines: Sequence[str], sign: str) -> Iterator[tuple[int, list[str]]]:
    """Yield every row, empty ones too, with its line, from 1.

    Parameters
    ----------
    sign
        What stands between cells.

    Raises
    ------
    InputError
        If it is no CSV table.
    """
    rows = csv.reader(lines, delimiter=sign, strict=True)
    line = 1
    try:
        for row in rows:
            yield line, row
            line = rows.line_num + 1
    except csv.Error as error:
        raise InputError.from_csv(path, error) from None


def comma_or_semicolon(lines: Sequence[str]) -> str:
    """Return what stands between the cells of a table, by its first line."""
    return ";" if lines and ";" in lines[0] and "," not in lines[0] else ","


def any_filled(row: Sequence[str]) -> bool:
    """Tell whether any cell of a row holds something."""
    return any(cell.strip() for cell in row)


def is_comment(row: Sequence[str]) -> bool:
    """Tell whether a row is a comment: it begins with #."""
    return bool(row) and row[0].lstrip().startswith("#")


def cells_by_column(columns: Sequence[str], row: Sequence[str]) -> dict[str, str]:
    """Return the cells that hold something, by column; of columns without a name none."""
    pairs = zip(columns, row, strict=False)
    return {name: cell.strip() for name, cell in pairs if name and cell.strip()}
