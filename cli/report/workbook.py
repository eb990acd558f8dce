"""A plan as a workbook: season, days, load, fixtures."""

import io
from typing import Any

from openpyxl import Workbook

from cli.files.plan_xlsx import SHEET
from cli.render.care import care_notes
from cli.report.cached import with_values
from cli.report.load_sheet import DOSE, LOAD, dose_sheet, load_sheet
from cli.report.report import Report
from cli.report.report_words import day_things
from cli.report.season_sheet import season_sheet
from cli.report.sheets import HEADS, begin_sheet, fill_rows
from optimiser.review.score import fixture_score


def workbook_bytes(report: Report) -> bytes:
    """Return the workbook of a plan."""
    book = Workbook()
    book.properties.category = report.loaded.group or None
    first: Any = book.active
    first.title = SHEET
    season_sheet(first, report)
    values = load_sheet(book.create_sheet(LOAD), report)
    _days(book.create_sheet("Days"), report)
    _fixtures(book.create_sheet("Fixtures"), report)
    _ladders(book.create_sheet("Ladders"), report)
    dose_sheet(book.create_sheet(DOSE), report)
    _care(book.create_sheet("Care"), report)
    out = io.BytesIO()
    book.save(out)
    return with_values(
        out.getvalue(), {f"xl/worksheets/sheet{book.index(book[LOAD]) + 1}.xml": values}
    )


def _days(sheet: Any, report: Report) -> None:
    heads = ("Week", "Date", "Day", "Near", "What", "Minutes", "Load AU")
    note = "MD-2 is two days before a match, MD+1 the day after one."
    begin_sheet(sheet, "Days", note, heads, (6, 11.5, 11, 8, 90, 9, 9))
    rows = [
        [week.week, day.date, day.weekday.title(), day.label, *thing]
        for week in report.weeks
        for day in week.days
        for thing in day_things(day)
    ]
    fill_rows(sheet, rows, wrap=(5,))
    for row in range(HEADS + 1, HEADS + 1 + len(rows)):
        sheet.cell(row, 2).number_format = "d mmm yyyy"
    sheet.freeze_panes = sheet.cell(HEADS + 1, 4)
    sheet.auto_filter.ref = f"A{HEADS}:G{HEADS + len(rows)}"


def _fixtures(sheet: Any, report: Report) -> None:
    heads = (
        "Week", "Date", "Kick-off", "Opponent", "Competition", "Venue", "Priority", "Target",
        "Planned readiness", "Reached %",
    )  # fmt: skip
    note = "Reached: planned readiness as a share of its target in the week of the match."
    begin_sheet(sheet, "Fixtures", note, heads, (6, 11.5, 9, 34, 34, 9, 9, 8, 10, 10))
    rows = []
    for week, fixture in report.fixtures:
        part = report.document.weeks[week.index]
        reached = round(fixture_score(part.readiness, part.target), 1)
        kickoff = f"{fixture.kickoff:%H:%M}" if fixture.kickoff else ""
        who = (fixture.opponent, fixture.competition, fixture.venue, fixture.priority.value)
        ready = round(part.readiness, 1)
        rows.append([week.number, fixture.date, kickoff, *who, round(part.target), ready, reached])
    fill_rows(sheet, rows, wrap=(4, 5))
    for row in range(HEADS + 1, HEADS + 1 + len(rows)):
        sheet.cell(row, 2).number_format = "ddd d mmm yyyy"
    sheet.column_dimensions["B"].width = 16
    sheet.freeze_panes = sheet.cell(HEADS + 1, 3)


def _ladders(sheet: Any, report: Report) -> None:
    heads = ("Quality", "Band", "Rung", "What it is", "A full week")
    note = "The bands of every quality, from general to specific."
    begin_sheet(sheet, "Ladders", note, heads, (22, 8, 7, 32, 90))
    rows = [
        [quality.name, band.code, rung, band.label, band.work]
        for quality in report.season.qualities
        for rung, band in enumerate(quality.bands, 1)
    ]
    fill_rows(sheet, rows, wrap=(4, 5))
    sheet.freeze_panes = sheet.cell(HEADS + 1, 1)


def _care(sheet: Any, report: Report) -> None:
    begin_sheet(sheet, "Care", "Read before the plan is used.", ("Note",), (120,))
    fill_rows(sheet, [[note] for note in care_notes(report.season)], wrap=(1,))
