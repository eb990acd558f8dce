"""Fixtures from the first sheet of a workbook."""

import datetime as dt
import io
from pathlib import Path
from typing import Any
from zipfile import ZipFile

from cli.files.errors import InputError
from cli.files.fixtures_found import Asked, Found
from cli.files.fixtures_table import Row, table_found
from cli.files.read_text import read_bytes

MOST_ROWS, MOST_COLUMNS = 2_000, 80
#: Most bytes a workbook may unpack to.
MOST_UNPACKED = 50_000_000


def find_fixtures_xlsx(path: Path, asked: Asked) -> Found:
    """Return the fixtures of a workbook and what was left out of it.

    Raises
    ------
    InputError
        With the row, if anything in it cannot be used.
    """
    return table_found(path, rows_xlsx(path), asked)


def rows_xlsx(path: Path) -> list[Row]:
    """Return the rows of a workbook's first sheet."""
    data = io.BytesIO(read_bytes(path))
    try:
        return _rows(data)
    except Exception as error:  # the library lets whatever goes wrong inside it come out
        said = str(error) or type(error).__name__
        raise InputError(
            path, "", "must be a workbook (.xlsx)", said, "save it again as .xlsx, or as CSV"
        ) from None


def _rows(data: io.BytesIO) -> list[Row]:
    from openpyxl import load_workbook

    unpacked = sum(part.file_size for part in ZipFile(data).infolist())
    if unpacked > MOST_UNPACKED:
        raise ValueError(f"one that unpacks to {unpacked // 1_000_000} MB")
    sheet = load_workbook(data, read_only=True, data_only=True).worksheets[0]
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
