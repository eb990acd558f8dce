"""Agendas of a club on A4, two columns of weeks to a sheet."""

import io
import textwrap
from collections.abc import Iterator, Sequence

from matplotlib.backends.backend_pdf import PdfPages
from matplotlib.figure import Figure

from cli.club_agenda import Agenda, AgendaEntry
from cli.render.pictures.theme import A4_HIGH, PRINT, drawing
from cli.report.club_pages import NOTE

#: Lines of a column, signs of a line, and points of type.
LINES, SIGNS, TYPE = 62, 64, 7.5
TOP, LEFT, COLUMN, STEP = 0.925, 0.06, 0.47, 0.0142
Line = tuple[str, bool]


def agenda_pdf(club: str, agenda: Agenda) -> bytes:
    """Return an agenda as PDF; a week stands in one column if it fits there."""
    out = io.BytesIO()
    title = f"{agenda.name}, {club}"
    info = {"Title": title, "CreationDate": None, "Creator": "Seasonwright"}
    columns = list(_columns(agenda))
    with drawing(PRINT), PdfPages(out, metadata=info) as pages:
        for at in range(0, max(1, len(columns)), 2):
            pages.savefig(_sheet(title, columns[at : at + 2]))
    return out.getvalue()


def _columns(agenda: Agenda) -> Iterator[list[Line]]:
    column: list[Line] = []
    for monday, entries in agenda.weeks():
        week = [
            (f"Week of {monday.day} {monday:%B %Y}", True),
            *_week(entries, agenda),
            ("", False),
        ]
        if column and len(column) + len(week) > LINES:
            yield column
            column = []
        column += week
        while len(column) > LINES:
            yield column[:LINES]
            column = column[LINES:]
    if column:
        yield column


def _week(entries: Sequence[AgendaEntry], agenda: Agenda) -> Iterator[Line]:
    shared = agenda.kind in ("room", "person")
    for entry in entries:
        words = f"{entry.who}: {entry.use}" if shared else entry.what
        head = f"{entry.date:%a} {entry.date.day} {entry.date:%b}  {entry.times or 'no time'}  "
        rest = f" [{', '.join(entry.where)}]" if entry.where and not shared else ""
        yield from ((line, False) for line in _wrapped(f"{head}{words}{rest}"))


def _wrapped(text: str) -> list[str]:
    return textwrap.wrap(text, SIGNS, subsequent_indent="    ")


def _sheet(title: str, columns: Sequence[Sequence[Line]]) -> Figure:
    figure = Figure(figsize=A4_HIGH)
    figure.text(LEFT, 0.95, title, fontsize=13, fontweight="bold")
    for at, column in enumerate(columns):
        for number, (text, head) in enumerate(column):
            weight = "bold" if head else "normal"
            x, y = LEFT + COLUMN * at, TOP - STEP * number
            figure.text(x, y, text, fontsize=TYPE, fontweight=weight, va="top")
    figure.text(LEFT, 0.02, textwrap.fill(NOTE, 120), fontsize=6.5)
    return figure
