"""Paragraphs and tables as a terminal shows them."""

import textwrap
from collections.abc import Iterable, Sequence
from typing import Any

from tabulate import tabulate

#: Signs on a line.
WIDTH = 100


def filled(words: str, first: str = "", later: str = "") -> str:
    """Return words on lines of `WIDTH` signs; ``first`` and ``later`` are what these begin with."""
    return textwrap.fill(words, WIDTH, initial_indent=first, subsequent_indent=later)


def hanging(words: str) -> str:
    """Return words on lines of `WIDTH` signs, the later ones set in."""
    return filled(words, later="  ")


def bullet(words: str) -> str:
    """Return words as a bullet."""
    return filled(words, "- ", "  ")


def table_text(
    rows: Iterable[Sequence[Any]],
    heads: Sequence[str] = (),
    *,
    lined: bool = False,
    sides: Sequence[str] | None = None,
    widths: Sequence[int | None] | None = None,
) -> str:
    """Return rows as a table, cells as they are.

    Parameters
    ----------
    lined
        Whether a line is drawn under the heads.
    sides, widths
        By column: ``left`` or ``right``, and the most signs on a line.
    """
    found: str = tabulate(
        rows,
        heads,
        tablefmt="simple" if lined else "plain",
        disable_numparse=True,
        colalign=sides,
        maxcolwidths=widths,
    )
    return found


def ruled_lines(
    heads: Sequence[Sequence[str]], rows: Iterable[Sequence[Any]], sides: Sequence[str]
) -> list[str]:
    """Return the lines of a table: its heads, each on one line, a line under them, the rows."""
    # heads are rows here, as those of the library are padded
    lines = [line.rstrip() for line in table_text([*heads, *rows], sides=sides).splitlines()]
    lines.insert(len(heads), "-" * max(map(len, lines)))
    return lines
