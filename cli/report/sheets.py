"""What the sheets of a workbook have in common."""

from collections.abc import Sequence
from typing import Any

from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from cli.render.clean_text import clean

FACE = "Calibri"
INK, SOFT, WASH, LINE = "1D2733", "566372", "EEF1F4", "CDD4DB"
TITLE = Font(name=FACE, size=16, bold=True, color=INK)
HEAD = Font(name=FACE, bold=True, color=INK)
NOTE = Font(name=FACE, italic=True, color=SOFT)
GROUND = PatternFill("solid", fgColor=WASH)
UNDER = Border(bottom=Side(style="thin", color=SOFT))
ABOVE = Border(top=Side(style="thin", color=SOFT))
#: Row of the names of the columns on every sheet.
HEADS = 4


def put(sheet: Worksheet, row: int, column: int, value: Any) -> Any:
    """Write one value; text is text, whatever sign it begins with."""
    cell: Any = sheet.cell(row, column)
    if isinstance(value, str):
        cell.value = clean(value)[:2000] or None
        if cell.value is not None:
            cell.data_type = "s"
            cell.quotePrefix = cell.value[:1] in ("=", "+", "-", "@")
    else:
        cell.value = value
    return cell


def formula(sheet: Worksheet, row: int, column: int, words: str) -> Any:
    """Write a formula of ours, without its leading sign."""
    cell: Any = sheet.cell(row, column)
    cell.value = f"={words}"
    return cell


def begin_sheet(
    sheet: Worksheet, title: str, note: str, heads: Sequence[str], widths: Sequence[float]
) -> None:
    """Write title, note and names of columns, and keep them in sight."""
    put(sheet, 1, 1, title).font = TITLE
    put(sheet, 2, 1, note).font = NOTE
    for column, (head, width) in enumerate(zip(heads, widths, strict=True), 1):
        cell = put(sheet, HEADS, column, head)
        cell.font, cell.fill, cell.border = HEAD, GROUND, UNDER
        cell.alignment = Alignment(wrap_text=True, vertical="bottom")
        sheet.column_dimensions[get_column_letter(column)].width = width
    sheet.row_dimensions[HEADS].height = 46
    sheet.sheet_view.showGridLines = False
    sheet.print_title_rows = f"{HEADS}:{HEADS}"
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.paperSize = sheet.PAPERSIZE_A4
    sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight = 1, 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True


def fill_rows(sheet: Worksheet, rows: Sequence[Sequence[Any]], *, wrap: Sequence[int] = ()) -> None:
    """Write rows under the names of the columns.

    Parameters
    ----------
    wrap
        Columns (from 1) in which long text runs on below.
    """
    for number, row in enumerate(rows, HEADS + 1):
        for column, value in enumerate(row, 1):
            cell = put(sheet, number, column, value)
            cell.alignment = Alignment(wrap_text=column in wrap, vertical="top")


def letter(column: int) -> str:
    """Return the letters of a column counted from 1."""
    return str(get_column_letter(column))
