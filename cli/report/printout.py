"""A plan on paper: the season on A3, a wall chart on A3, then every open week on A4."""

import io
from collections.abc import Iterator

from matplotlib.backends.backend_pdf import PdfPages
from matplotlib.figure import Figure

from cli.render.pictures.season import season_chart
from cli.render.pictures.theme import PRINT, drawing
from cli.render.pictures.wall import wall_chart
from cli.render.pictures.week_page import DayLines, WeekLines, week_page
from cli.report.report import Report
from cli.report.report_words import day_things, week_span
from cli.report.week_work import week_work
from optimiser.days.week_plan import DayPlan, WeekPlan
from optimiser.domain.week_number import index_of

#: Weeks on one A3 sheet at most.
SHEET = 56
CARE = "A planning aid, not medical advice: qualified supervision, clearance first, stop at pain."


def printout_bytes(report: Report) -> bytes:
    """Return the plan as PDF."""
    out = io.BytesIO()
    info = {"Title": report.season.name, "CreationDate": None, "Creator": "Seasonwright"}
    with drawing(PRINT), PdfPages(out, metadata=info) as pages:
        for figure in _pages(report):
            pages.savefig(figure)
    return out.getvalue()


def _pages(report: Report) -> Iterator[Figure]:
    yield from _sheets(report)
    lines = [
        _week(report, week)
        for week in report.weeks
        if report.document.weeks[index_of(week.week)].block is not None
    ]
    for at in range(0, len(lines), 2):
        foot = f"{report.season.name}.  {CARE}"
        yield week_page(lines[at : at + 2], report.season.qualities, foot)


def _sheets(report: Report) -> Iterator[Figure]:
    weeks = len(report.document.weeks)
    each = -(-weeks // -(-weeks // SHEET))
    for first in range(1, weeks + 1, each):
        last = min(weeks, first + each - 1)
        sheet = season_chart(
            report.document, report.season, report.rules, first=first, last=last, word=report.word
        )
        yield sheet
        yield wall_chart(report.document, report.season, first=first, last=last)


def _week(report: Report, week: WeekPlan) -> WeekLines:
    part = report.document.weeks[index_of(week.week)]
    first, last = week.days[0].date, week.days[-1].date
    title = f"Week {week.week}, {first.day} {first:%b} to {last.day} {last:%b %Y}"
    notes = [*(f"Not kept: {fault}." for fault in week.faults), *week.notes]
    days, most = tuple(map(_day, week.days)), max(day.load for w in report.weeks for day in w.days)
    work = week_work(report.season, part, report.library, report.kit)
    return WeekLines(part, title, week_span(part), days, tuple(notes), work, most)


def _day(day: DayPlan) -> DayLines:
    things = tuple(words for words, _, _ in day_things(day) if words)
    name = f"{day.date:%a} {day.date.day} {day.date:%b}"
    return DayLines(name, day.label, things or ("",), day.load, day.match is not None)
