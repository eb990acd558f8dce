"""Session cards on A4, two or four to a sheet."""

import io
import textwrap
from collections.abc import Iterator, Sequence
from itertools import groupby

from matplotlib.backends.backend_pdf import PdfPages
from matplotlib.figure import Figure

from cli.render.cards import care_words
from cli.render.cards_data import Sheet, sheets
from cli.render.pictures.card_box import Box, draw_card
from cli.render.pictures.theme import A4_HIGH, PRINT, drawing
from cli.report.card_layouts import Layout
from optimiser.athlete.card import Card

MARGIN, FOOT = 0.35, 0.62


def cards_pdf(cards: Sequence[Card], name: str, layout: Layout) -> bytes:
    """Return the cards as PDF.

    Parameters
    ----------
    name
        Of the season.
    """
    out = io.BytesIO()
    info = {"Title": f"Session cards, {name}", "CreationDate": None, "Creator": "Seasonwright"}
    foot = care_words(cards)
    with drawing(PRINT), PdfPages(out, metadata=info) as pages:
        for held in _pages(sheets(cards), layout):
            pages.savefig(_page(held, layout, foot))
    return out.getvalue()


def _pages(found: Sequence[Sheet], layout: Layout) -> Iterator[Sequence[Sheet]]:
    """Yield what stands on each page."""
    each = 4 if layout == "four" else 2
    for group in _groups(found, layout):
        for at in range(0, len(group), each):
            yield group[at : at + each]


def _groups(found: Sequence[Sheet], layout: Layout) -> Iterator[list[Sheet]]:
    if layout in ("week", "four"):
        yield list(found)
        return
    if layout == "athlete":
        yield from (list(group) for _, group in groupby(found, lambda sheet: sheet.athlete))
        return
    ordered = sorted(found, key=lambda sheet: sheet.key)
    yield from (list(group) for _, group in groupby(ordered, lambda sheet: sheet.key))


def _page(held: Sequence[Sheet], layout: Layout, foot: Sequence[str]) -> Figure:
    figure = Figure(figsize=A4_HIGH)
    for sheet, box in zip(held, _boxes(layout), strict=False):
        draw_card(figure, sheet, box)
    _care(figure, foot)
    return figure


def _boxes(layout: Layout) -> list[Box]:
    wide, high = A4_HIGH[0] - 2 * MARGIN, A4_HIGH[1] - MARGIN - FOOT
    across = 2 if layout == "four" else 1
    size = (wide / across, high / 2)
    return [
        Box(MARGIN + column * size[0], MARGIN + row * size[1], *size)
        for row in range(2)
        for column in range(across)
    ]


def _care(figure: Figure, foot: Sequence[str]) -> None:
    """Write what is said with every set of cards below them, small but whole."""
    wide, high = A4_HIGH
    words = textwrap.wrap(" ".join(foot), 222)
    for at, line in enumerate(words):
        top = high - FOOT + 0.1 + at * 0.075
        figure.text(MARGIN / wide, 1 - top / high, line, fontsize=4.6, color=PRINT.soft)
