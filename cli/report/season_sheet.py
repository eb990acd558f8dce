"""The season sheet: a row a week, which a coach may change and have read back."""

import datetime as dt
from collections.abc import Sequence
from typing import Any

from openpyxl.formatting.rule import CellIsRule
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.worksheet import Worksheet

from cli.files.plan_xlsx import OF_EACH, WEEK, quality_heads
from cli.render.pictures.theme import ladder_colour, text_on
from cli.render.signs import DOSES
from cli.render.week_columns import COLUMNS, QualityColumn
from cli.report.report import Report
from cli.report.sheets import HEADS, LINE, SOFT, begin_sheet, letter, put
from optimiser.domain.document import WeekPart
from optimiser.domain.quality import Quality
from optimiser.domain.wording import listed

ON_SHEET = [column for column in COLUMNS if column.sheet]
BEFORE = [column for column in ON_SHEET if not column.last]
BEHIND = [column for column in ON_SHEET if column.last]
CHANGED = [str(each.sheet) for each in BEFORE if each.back == "changed" and each.sheet != WEEK]
NOTE = (
    f"Bands, doses, {listed(CHANGED)} may be changed here; save, then run `seasonwright audit` "
    "with this file. Target and Planned readiness are of the plan as it was written."
)
#: Width from which a column holds more than can be seen.
LONG = 20
#: Width of the columns of each quality.
NARROW = 11.5
BAR = Border(left=Side(style="thin", color=LINE))


def band_column(place: int) -> int:
    """Return the column of the band of the quality at ``place``; its dose is in the next."""
    return len(BEFORE) + 1 + len(OF_EACH) * place


def season_sheet(sheet: Worksheet, report: Report) -> None:
    """Fill the season sheet."""
    heads = [head for own in quality_heads(report.season).values() for head in own]
    titles = [*(str(c.sheet) for c in BEFORE), *heads, *(str(c.sheet) for c in BEHIND)]
    widths = [*(c.width for c in BEFORE), *[NARROW] * len(heads), *(c.width for c in BEHIND)]
    begin_sheet(sheet, report.season.name, NOTE, titles, widths)
    for row, week in enumerate(report.document.weeks, HEADS + 1):
        _row(sheet, report.season.keys, row, week)
    last = HEADS + len(report.document.weeks)
    for place, quality in enumerate(report.season.qualities):
        _choices(sheet, quality, band_column(place), last)
    sheet.freeze_panes = sheet.cell(HEADS + 1, 3)


def _row(sheet: Worksheet, keys: Sequence[str], row: int, week: WeekPart) -> None:
    values = [
        *(column.sheet_value(week) for column in BEFORE),
        *(_of_quality(column, key, week) for key in keys for column in OF_EACH),
        *(column.sheet_value(week) for column in BEHIND),
    ]
    bars = {band_column(place) for place in range(len(keys) + 1)}
    for column, value in enumerate(values, 1):
        cell = put(sheet, row, column, value)
        wide = column <= len(BEFORE) and BEFORE[column - 1].width > LONG
        cell.alignment = Alignment(horizontal="left", shrink_to_fit=wide)
        if column in bars:
            cell.border = BAR
        if isinstance(value, dt.date):
            cell.number_format = "d mmm yyyy"


def _of_quality(column: QualityColumn, key: str, week: WeekPart) -> Any:
    part = week.qualities[key]
    return None if part.band is None else column.value(key, part)


def _choices(sheet: Worksheet, quality: Quality, column: int, last: int) -> None:
    """Offer the codes and doses there are, and let colours follow what is chosen."""
    bands, doses = (f"{letter(at)}{HEADS + 1}:{letter(at)}{last}" for at in (column, column + 1))
    _offer(sheet, bands, [band.code for band in quality.bands])
    _offer(sheet, doses, DOSES)
    for rung, band in enumerate(quality.bands):
        colour = ladder_colour(rung / (len(quality.bands) - 1))
        rule: Any = CellIsRule(
            operator="equal",
            formula=[_quoted(band.code)],
            fill=PatternFill("solid", bgColor=colour[1:].upper()),
            font=Font(color=text_on(colour)[1:].upper(), bold=True),
        )
        sheet.conditional_formatting.add(bands, rule)
    for dose, font in (("none", Font(color=SOFT, italic=True)), ("full", Font(bold=True))):
        rule = CellIsRule(operator="equal", formula=[_quoted(dose)], font=font)
        sheet.conditional_formatting.add(doses, rule)


def _offer(sheet: Worksheet, cells: str, words: Sequence[str]) -> None:
    """Offer a list to choose from, where its words can stand in one."""
    listed = ",".join(words)
    if len(listed) > 250 or any(sign in word for word in words for sign in ',"'):
        return
    offer = DataValidation(type="list", formula1=f'"{listed}"', allow_blank=True)
    offer.error, offer.errorTitle = f"One of: {', '.join(words)}"[:220], "Not on the ladder"
    offer.add(cells)
    sheet.add_data_validation(offer)


def _quoted(text: str) -> str:
    doubled = text.replace('"', '""')
    return f'"{doubled}"'
