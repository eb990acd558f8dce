"""Load and dose sheets: totals that follow what a coach changes on the season sheet."""

from collections.abc import Sequence
from typing import Any

from openpyxl.formatting.rule import FormulaRule
from openpyxl.styles import Font
from openpyxl.worksheet.worksheet import Worksheet

from cli.files.plan_xlsx import SHEET
from cli.render.pictures.ramp import ramp_limits
from cli.render.signs import DOSES
from cli.report.report import Report
from cli.report.season_sheet import band_column
from cli.report.sheets import ABOVE, HEAD, HEADS, begin_sheet, formula, letter, put
from constraints.load_ramp import LoadRamp
from optimiser.domain.quality import dose_of
from optimiser.domain.week_number import index_of

LOAD, DOSE = "Load", "Doses"
NOTE = (
    "In AU (minutes x rating). Every total is a formula and follows the doses on Season. Own min: "
    "of the plan's own work, as AU and rules count it. Session min: with warm-ups and standing "
    "work, as on Days and on the cards."
)
DOSE_NOTE = "What a week of each dose comes to. Load: AU. Minutes: of own work, without warm-ups."
#: First column of the qualities, and the columns after them.
FIRST = 3
SUMS = ("Training", "Practice", "Matches", "Total", "Most", "Own min", "Session min")


def dose_sheet(sheet: Worksheet, report: Report) -> None:
    """Fill the table of what each band and dose costs, a row a band."""
    costs = [*(f"{dose} AU" for dose in DOSES), *(f"{dose} min" for dose in DOSES)]
    heads = ["Quality", "Band", *costs]
    begin_sheet(sheet, "Doses", DOSE_NOTE, heads, [26, 8, *[11] * len(costs)])
    for column, dose in enumerate((*DOSES, *DOSES), 3):
        put(sheet, HEADS - 1, column, dose)
    rows = [(each, rung) for each in report.season.qualities for rung in range(len(each.bands))]
    for row, (quality, rung) in enumerate(rows, HEADS + 1):
        doses = [dose_of(word) for word in DOSES]
        loads = [quality.load(dose, rung) for dose in doses]
        minutes = [quality.minutes(dose, rung) for dose in doses]
        told = [quality.name, quality.bands[rung].code, *loads, *minutes]
        for column, value in enumerate(told, 1):
            put(sheet, row, column, value)


def _bands_of(report: Report, place: int) -> range:
    """Return the rows of the table of doses that hold the bands of the quality at ``place``."""
    counts = [len(quality.bands) for quality in report.season.qualities]
    first = HEADS + 1 + sum(counts[:place])
    return range(first, first + counts[place])


def load_sheet(sheet: Worksheet, report: Report) -> dict[str, int]:
    """Fill the load of each week: by quality, in total, and its weekly rise limit.

    Returns
    -------
    dict
        What the formulas come to, by cell.
    """
    names = [quality.name for quality in report.season.qualities]
    begin_sheet(
        sheet,
        "Load",
        NOTE,
        ["Week", "Monday", *names, *SUMS],
        [6, 11.5, *[12] * len(names), *[10.5] * len(SUMS)],
    )
    rows = range(HEADS + 1, HEADS + 1 + len(report.document.weeks))
    for row in rows:
        _row(sheet, report, row)
    _most(sheet, report, rows)
    _sums(sheet, rows, len(names))
    _warn(sheet, rows, len(names))
    sheet.freeze_panes = sheet.cell(HEADS + 1, FIRST)
    return _values(report, rows)


def _values(report: Report, rows: range) -> dict[str, int]:
    """Work out from the plan what the formulas come to."""
    count, told = len(report.season.qualities), dict[tuple[int, int], int]()
    limits = ramp_limits(report.document, report.rules)
    for row, week, limit in zip(rows, report.document.weeks, limits, strict=True):
        parts = [(q, week.qualities[q.key]) for q in report.season.qualities]
        done = [
            (quality, dose_of(part.dose), None if part.rung is None else part.rung - 1)
            for quality, part in parts
        ]
        loads = [quality.load(dose, rung) for quality, dose, rung in done]
        minutes = [quality.minutes(dose, rung) for quality, dose, rung in done]
        own = sum(loads)
        fixed = (week.load.practice, week.load.matches)
        for column, value in enumerate((*loads, own, *fixed, own + sum(fixed)), FIRST):
            told[row, column] = value
        told[row, FIRST + count + 5] = sum(minutes)
        told[row, FIRST + count + 6] = sum(minutes) + _beside(report, row)
        if limit is not None:
            told[row, FIRST + count + 4] = limit
    for column in (*range(FIRST, FIRST + count + 4), FIRST + count + 5, FIRST + count + 6):
        told[rows.stop + 1, column] = sum(told[row, column] for row in rows)
    return {f"{letter(column)}{row}": value for (row, column), value in told.items()}


def _row(sheet: Worksheet, report: Report, row: int) -> None:
    week = report.document.weeks[row - HEADS - 1]
    put(sheet, row, 1, week.week)
    put(sheet, row, 2, week.monday).number_format = "d mmm yyyy"
    count = len(report.season.qualities)
    for place in range(count):
        formula(sheet, row, FIRST + place, _looked_up(report, place, row, 0))
    own = f"{letter(FIRST)}{row}:{letter(FIRST + count - 1)}{row}"
    training = FIRST + count
    formula(sheet, row, training, f"SUM({own})")
    put(sheet, row, training + 1, week.load.practice)
    put(sheet, row, training + 2, week.load.matches)
    formula(sheet, row, training + 3, f"SUM({letter(training)}{row}:{letter(training + 2)}{row})")
    minutes = "+".join(_looked_up(report, place, row, len(DOSES)) for place in range(count))
    formula(sheet, row, training + 5, minutes)
    sessions = f"{letter(training + 5)}{row}+{_beside(report, row)}"
    formula(sheet, row, training + 6, sessions)


def _beside(report: Report, row: int) -> int:
    """Return the minutes of warm-ups and standing work of a week."""
    return report.weeks[row - HEADS - 1].minutes.beside


def _looked_up(report: Report, place: int, row: int, shift: int) -> str:
    """Return the formula of one dose's load, or of its minutes, found in the table of doses."""
    band, dose = (f"{SHEET}!{letter(band_column(place) + more)}{row}" for more in (0, 1))
    first, last = letter(3 + shift), letter(2 + shift + len(DOSES))
    rows = _bands_of(report, place)
    top, bottom = rows.start, rows.stop - 1
    values = f"{DOSE}!${first}${top}:${last}${bottom}"
    codes = f"{DOSE}!$B${top}:$B${bottom}"
    words = f"{DOSE}!${first}${HEADS - 1}:${last}${HEADS - 1}"
    return f"IFERROR(INDEX({values},MATCH({band},{codes},0),MATCH({dose},{words},0)),0)"


def _most(sheet: Worksheet, report: Report, rows: range) -> None:
    """Write the load ramp's limit over the last four open weeks, as the rule words it."""
    rule = next((each for each in report.rules if isinstance(each, LoadRamp)), None)
    if rule is None:
        return
    training = FIRST + len(report.season.qualities)
    recent: list[int] = []
    for row in rows:
        week = report.document.weeks[row - HEADS - 1]
        if week.block is None:
            continue
        if recent:
            words = _limit(rule, training, row, recent, rule.free(index_of(week.week)))
            formula(sheet, row, training + 4, words)
        recent = [*recent, row][-4:]


def _limit(rule: LoadRamp, training: int, row: int, recent: Sequence[int], free: int) -> str:
    total, practice, matches = (letter(training + step) for step in (3, 1, 2))
    share = f"{100 + rule.percent}/100/{len(recent)}"
    totals = ",".join(f"{total}{past}" for past in recent)
    others = ",".join(f"{column}{past}" for past in recent for column in (practice, matches))
    usual = f"{share}*SUM({totals})+{rule.allowance}"
    given = f"{share}*SUM({others})-{rule.allowance}"
    fixed = f"{practice}{row}+{matches}{row}+{rule.floor}"
    return f"INT({usual}+MAX(0,ROUNDUP({fixed}-{given},0))+{free})"


def _sums(sheet: Worksheet, rows: range, count: int) -> None:
    """Write each column's sum under it."""
    at = rows.stop + 1
    put(sheet, at, 1, "Season").font = HEAD
    training = FIRST + count
    for column in (*range(FIRST, training + 4), training + 5, training + 6):
        name = letter(column)
        cell = formula(sheet, at, column, f"SUM({name}{rows.start}:{name}{rows.stop - 1})")
        cell.font, cell.border = HEAD, ABOVE


def _warn(sheet: Worksheet, rows: range, count: int) -> None:
    """Underline a total above the most there may be."""
    total, most = letter(FIRST + count + 3), letter(FIRST + count + 4)
    first = rows.start
    rule: Any = FormulaRule(
        formula=[f'AND({most}{first}<>"",{total}{first}>{most}{first})'],
        font=Font(bold=True, underline="double", color="B3361F"),
    )
    sheet.conditional_formatting.add(f"{total}{first}:{total}{rows.stop - 1}", rule)
