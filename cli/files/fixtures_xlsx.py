"""Fixtures from the first sheet of a workbook that has dates."""

import datetime as dt
import io
from pathlib import Path
from typing import Any

from cli.files.fixtures_found import FoundFixtures, ListFacts
from cli.files.fixtures_head import Row
from cli.files.fixtures_table import table_found
from cli.files.spreadsheet import MOST_COLUMNS, MOST_ROWS, first_with_dates, sheet_rows


def find_fixtures_xlsx(path: Path, asked: ListFacts) -> FoundFixtures:
    """Return the fixtures of a workbook and what was left out of it.

    Raises
    ------
    InputError
        With the row, if anything in it cannot be used.
    """
    return table_found(path, rows_xlsx(path), asked, wide=True)


def rows_xlsx(path: Path) -> list[Row]:
    """Return the rows of a workbook's first sheet with a table of dates."""
    return sheet_rows(path, "workbook", ".xlsx", _rows)


def _rows(data: io.BytesIO) -> list[Row]:
    from openpyxl import load_workbook

    sheets = load_workbook(data, read_only=True, data_only=True).worksheets
    return first_with_dates(_rows_of(sheet) for sheet in sheets)


def _rows_of(sheet: Any) -> list[Row]:
    sheet.reset_dimensions()
    rows = sheet.iter_rows(max_row=MOST_ROWS, max_col=MOST_COLUMNS, values_only=True)
    return [
        (f"row {number}", [_text(value) for value in row]) for number, row in enumerate(rows, 1)
    ]


def _text(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return value.isoformat() if isinstance(value, dt.datetime) else str(value)
