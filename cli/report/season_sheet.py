"""The season sheet: a row a week, which a coach may change and have read back."""

from collections.abc import Sequence
from typing import Any

from openpyxl.formatting.rule import CellIsRule
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.worksheet import Worksheet

from cli.files.plan_xlsx import SHARED, WEEK, quality_heads
from cli.render.pictures.theme import ladder_colour, text_on
from cli.render.signs import DOSES, LETTER
from cli.report.report import Report
from cli.report.sheets import HEADS, LINE, SOFT, begin, letter, put
from optimiser.domain.document import WeekPart
from optimiser.domain.quality import Quality

FIXED = (
    WEEK,
    "Monday",
    "Phase",
    "Block",
    "Fixtures",
    "Target",
    "Planned readiness",
    "Field",
    "Gym",
)
WIDTHS = (6, 11.5, 11, 7, 30, 8, 10.5, 6.5, 6.5)
NOTE = (
    "Bands, doses, Field, Gym and Block may be changed here; save, then run `seasonwright audit` "
    "with this file. Target and Planned readiness are of the plan as it was written."
)
assert set(SHARED) <= set(FIXED)
LONG = FIXED.index("Fixtures") + 1
BAR = Border(left=Side(style="thin", color=LINE))


def band_column(place: int) -> int:
    """Return the column of the band of the quality at ``place``; its dose is in the next."""
    return len(FIXED) + 1 + 2 * place


def season_sheet(sheet: Worksheet, report: Report) -> None:
    """Fill the season sheet."""
    heads = [head for pair in quality_heads(report.season).values() for head in pair]
    widths = [*WIDTHS, *[11.5] * len(heads), 9]
    begin(sheet, report.season.name, NOTE, [*FIXED, *heads, "Lighter"], widths)
    for row, week in enumerate(report.document.weeks, HEADS + 1):
        _row(sheet, report, row, week)
    last = HEADS + len(report.document.weeks)
    for place, quality in enumerate(report.season.qualities):
        _choices(sheet, quality, band_column(place), last)
    sheet.freeze_panes = sheet.cell(HEADS + 1, 3)


def _row(sheet: Worksheet, report: Report, row: int, week: WeekPart) -> None:
    closed = week.block is None
    values: list[Any] = [
        week.week,
        week.monday,
        week.phase.value,
        week.block,
        _fixtures(week),
        None if closed else round(week.target),
        round(week.readiness, 1),
        None if closed else week.sessions.field,
        None if closed else week.sessions.gym,
    ]
    for key in report.season.keys:
        part = week.qualities[key]
        values += [None, None] if part.band is None else [part.band, part.dose]
    values.append(" ".join(w for w, on in (("D", week.deload), ("T", week.taper)) if on))
    for column, value in enumerate(values, 1):
        cell = put(sheet, row, column, value)
        cell.alignment = Alignment(horizontal="left", shrink_to_fit=column == LONG)
        if column >= band_column(0) and (column - band_column(0)) % 2 == 0:
            cell.border = BAR
    sheet.cell(row, 2).number_format = "d mmm yyyy"


def _fixtures(week: WeekPart) -> str:
    return ", ".join(
        f"{LETTER[f.priority]} {f.date.day} {f.date:%b} {f.opponent or f.competition or 'match'}"
        for f in week.fixtures
    )


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
