"""The files of a report: what each kind is called and how it is made."""

from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from cli.report.calendar_file import Times
from cli.report.report import Report
from optimiser.athlete.card import Card

#: The kinds there are, and what each is.
KINDS = {
    "html": "One page with everything, for a browser.",
    "pdf": "The season on A3, then two weeks on each A4 page.",
    "png": "The season chart as a picture.",
    "svg": "The season chart as a drawing.",
    "xlsx": "A workbook; `audit` reads its season sheet back.",
    "ics": "A calendar of fixtures and sessions.",
    "cards": "Session cards of one week, for A4 and for phones.",
}


class MadeFile(NamedTuple):
    """One file: its name and what it holds."""

    name: str
    data: bytes


def made_files(
    report: Report, kinds: frozenset[str], times: Times, cards: Sequence[Card] = ()
) -> Iterator[MadeFile]:
    """Yield the files of a report, kind by kind; what draws and writes is loaded on the way."""
    makers: dict[str, Callable[[], Iterator[MadeFile]]] = {
        "html": lambda: _page(report),
        "pdf": lambda: _printout(report),
        "png": lambda: _pictures(report, "png"),
        "svg": lambda: _pictures(report, "svg"),
        "xlsx": lambda: _workbook(report),
        "ics": lambda: _calendar(report, times),
        "cards": lambda: _cards(report, cards),
    }
    for kind in KINDS:
        if kind in kinds:
            yield from makers[kind]()


def _page(report: Report) -> Iterator[MadeFile]:
    from cli.report.page_file import page_text

    yield MadeFile("report.html", page_text(report).encode("utf-8", "replace"))


def _printout(report: Report) -> Iterator[MadeFile]:
    from cli.report.printout import printout_bytes

    yield MadeFile("season.pdf", printout_bytes(report))


def _pictures(report: Report, kind: str) -> Iterator[MadeFile]:
    from cli.render.pictures.comparison import comparison_chart
    from cli.render.pictures.save import png_bytes, svg_bytes

    save = png_bytes if kind == "png" else svg_bytes
    yield MadeFile(f"season.{kind}", save(report.chart))
    if report.compared:
        before = report.compared.before
        both = comparison_chart(before, report.document, report.season)
        yield MadeFile(f"comparison.{kind}", save(both))


def _workbook(report: Report) -> Iterator[MadeFile]:
    from cli.report.workbook import workbook_bytes

    yield MadeFile("season.xlsx", workbook_bytes(report))


def _calendar(report: Report, times: Times) -> Iterator[MadeFile]:
    import datetime as dt

    from cli.report.calendar_file import calendar_bytes

    yield MadeFile("season.ics", calendar_bytes(report, times, dt.datetime.now(dt.UTC)))


def _cards(report: Report, cards: Sequence[Card]) -> Iterator[MadeFile]:
    from cli.report.cards_page import cards_page
    from cli.report.cards_print import cards_pdf

    name = report.season.name
    yield MadeFile("cards.pdf", cards_pdf(cards, name, "athlete"))
    yield MadeFile("cards.html", cards_page(cards, name).encode("utf-8", "replace"))
