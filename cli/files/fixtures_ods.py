"""Fixtures from the first sheet of an OpenDocument spreadsheet that has dates."""

import io
from pathlib import Path
from typing import Any

from cli.files.errors import InputError
from cli.files.fixtures_found import FoundFixtures, ListFacts
from cli.files.fixtures_head import Row
from cli.files.fixtures_table import table_found
from cli.files.spreadsheet import MOST_COLUMNS, MOST_ROWS, first_with_dates, sheet_rows

#: Cells by what they hold: the attribute that has their value, free of how it is shown.
VALUES = {"date": "datevalue", "float": "value"}


def find_fixtures_ods(path: Path, asked: ListFacts) -> FoundFixtures:
    """Return the fixtures of a spreadsheet and what was left out of it.

    Raises
    ------
    InputError
        With the row, if anything in it cannot be used, or if odfpy is not installed.
    """
    return table_found(path, rows_ods(path), asked, wide=True)


def rows_ods(path: Path) -> list[Row]:
    """Return the rows of a spreadsheet's first sheet with a table of dates."""
    try:
        import odf  # noqa: F401
    except ImportError:
        do = "pip install 'seasonwright[ods]', or save it as .xlsx or CSV"
        raise InputError(path, "", "needs odfpy to be read", "it is not installed", do) from None
    return sheet_rows(path, "spreadsheet", ".ods", _rows)


def _rows(data: io.BytesIO) -> list[Row]:
    from odf.opendocument import load
    from odf.table import Table

    sheets = load(data).spreadsheet.getElementsByType(Table)
    return first_with_dates(_rows_of(sheet) for sheet in sheets)


def _rows_of(sheet: Any) -> list[Row]:
    from odf.table import TableRow

    found: list[Row] = []
    for row in sheet.getElementsByType(TableRow):
        times = int(row.getAttribute("numberrowsrepeated") or 1)
        cells = _cells(row)
        for _ in range(times if any(cells) else 1):
            found.append((f"row {len(found) + 1}", cells))
        if len(found) >= MOST_ROWS:
            break
    return found


def _cells(row: object) -> list[str]:
    from odf.table import TableCell

    cells: list[str] = []
    for cell in row.getElementsByType(TableCell):  # type: ignore[attr-defined]
        times = int(cell.getAttribute("numbercolumnsrepeated") or 1)
        text = _text(cell)
        cells += [text] * min(times, MOST_COLUMNS - len(cells))
    while cells and not cells[-1]:
        cells.pop()
    return cells


def _text(cell: object) -> str:
    from odf import teletype

    kind = cell.getAttribute("valuetype")  # type: ignore[attr-defined]
    if kind in VALUES:
        value = str(cell.getAttribute(VALUES[kind]))  # type: ignore[attr-defined]
        return value.removesuffix(".0")
    return str(teletype.extractText(cell)).strip()
