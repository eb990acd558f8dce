"""One session card drawn into a box of a printed page."""

import textwrap
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle

from cli.render.cards_data import CardRow, Part, Sheet
from cli.render.pictures.text import drawable
from cli.render.pictures.theme import PRINT

#: Points of type at most and at least, and lines of leading in type sizes.
LARGEST, SMALLEST, LEADING = 9.5, 4.6, 1.24
#: Width of a sign in type sizes, on the safe side.
SIGN = 0.56
#: Where the columns of an exercise begin, as shares of the width; the last ends at the right.
COLUMNS = (0.0, 0.42, 0.6, 0.9)
RIGHT = 1.0
INSET = 0.13


@dataclass(frozen=True)
class Box:
    """A box on a page, in inches from the left and from the top."""

    left: float
    top: float
    wide: float
    high: float


@dataclass(frozen=True)
class Text:
    """A line of text: pieces by where they begin (share of the width), and how it looks."""

    pieces: tuple[tuple[float, str], ...]
    weight: str = "normal"
    style: str = "normal"
    colour: str = PRINT.ink
    rule: bool = False


def draw_card(figure: Figure, sheet: Sheet, box: Box) -> None:
    """Draw a session into ``box``, in the largest type that fits."""
    size = LARGEST
    lines = list(_lines(sheet, _signs(box, size)))
    while size > SMALLEST and len(lines) * size * LEADING > 72 * (box.high - 2 * INSET):
        size -= 0.1
        lines = list(_lines(sheet, _signs(box, size)))
    _frame(figure, box)
    wide = box.wide - 2 * INSET
    for at, line in enumerate(lines):
        top = box.top + INSET + (at + 0.8) * size * LEADING / 72
        for start, words in line.pieces:
            _text(figure, box.left + INSET + start * wide, top, words, line, size, start == RIGHT)
        if line.rule:
            _rule(figure, box, top - 0.88 * size / 72)


def _signs(box: Box, size: float) -> int:
    return int(72 * (box.wide - 2 * INSET) / (SIGN * size))


def _lines(sheet: Sheet, signs: int) -> Iterator[Text]:
    yield from _wrapped(f"{sheet.athlete}: {sheet.title}", int(0.85 * signs), weight="bold")
    yield Text(((0.0, sheet.about),), colour=PRINT.soft)
    yield from _wrapped(sheet.week, signs, colour=PRINT.soft)
    for note in sheet.notes:
        yield from _wrapped(note, signs, style="italic")
    if sheet.away:
        yield Text(((0.0, "You are away."),))
    for part in sheet.parts:
        yield from _part(part, signs)
    if sheet.pain:
        yield from _wrapped(sheet.pain, signs, weight="bold", rule=True)


def _part(part: Part, signs: int) -> Iterator[Text]:
    heading = f"{part.title} {part.detail}".strip()
    *first, last = textwrap.wrap(heading, int(0.8 * signs))
    for at, words in enumerate(first):
        yield Text(((0.0, words),), weight="bold", rule=not at)
    yield Text(((0.0, last), (RIGHT, f"{part.minutes} min")), weight="bold", rule=not first)
    for row in part.rows:
        yield from _work(row, signs) if part.own else _standing(row, signs)
    for note in part.notes:
        yield from _wrapped(note, signs, colour=PRINT.soft)


def _standing(row: CardRow, signs: int) -> Iterator[Text]:
    note = f" ({row.note})" if row.note else ""
    words = f"{row.step.lower()}: {row.exercise} {row.work}{note}. {row.cue}"
    yield from _wrapped(words, signs)


def _work(row: CardRow, signs: int) -> Iterator[Text]:
    if row.rising:
        yield from _wrapped(row.rising, signs, colour=PRINT.soft)
    told = (row.exercise, row.work, row.load, row.rest)
    cells = [
        textwrap.wrap(words, max(6, int((end - start) * signs) - 1)) or [""]
        for words, start, end in zip(told, COLUMNS, (*COLUMNS[1:], RIGHT), strict=True)
    ]
    starts = (*COLUMNS[:3], RIGHT)
    for at in range(max(map(len, cells))):
        pieces = [
            (start, cell[at]) for start, cell in zip(starts, cells, strict=True) if at < len(cell)
        ]
        yield Text(tuple(pieces))
    note = f" ({row.note})" if row.note else ""
    yield from _wrapped(f"   {row.cue}{note}", signs, style="italic", colour=PRINT.soft)


def _wrapped(words: str, signs: int, **look: Any) -> Iterator[Text]:
    rule = look.pop("rule", False)
    for at, line in enumerate(textwrap.wrap(words, signs, drop_whitespace=True)):
        yield Text(((0.0, line),), rule=rule and not at, **look)


def _frame(figure: Figure, box: Box) -> None:
    wide, high = figure.get_size_inches()
    corner = (box.left / wide, 1 - (box.top + box.high) / high)
    size = (box.wide / wide, box.high / high)
    figure.add_artist(
        Rectangle(corner, *size, fill=False, ec=PRINT.grid, lw=0.8, transform=figure.transFigure)
    )


def _rule(figure: Figure, box: Box, top: float) -> None:
    wide, high = figure.get_size_inches()
    ends = [(box.left + INSET) / wide, (box.left + box.wide - INSET) / wide]
    figure.add_artist(Line2D(ends, [1 - top / high] * 2, color=PRINT.grid, lw=0.6))


def _text(
    figure: Figure, left: float, top: float, words: str, line: Text, size: float, ends: bool
) -> None:
    wide, high = figure.get_size_inches()
    figure.text(
        left / wide,
        1 - top / high,
        drawable(words, 200),
        fontsize=size,
        weight=line.weight,
        style=line.style,
        color=line.colour,
        va="baseline",
        ha="right" if ends else "left",
    )
