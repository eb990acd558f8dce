"""Both sides of a match in one cell: Ashby v Brook Vale."""

import re
from collections.abc import Sequence

from cli.files.fixtures_clubs import AWAY, HOME

BETWEEN = re.compile(r"\s+(?:v|vs|versus|gegen|contre|contra|contro|tegen)\b\.?\s+", re.I)
DASH = re.compile(r"\s+[-–—]\s+")
AT = re.compile(r"\s*@\s*|\s+at\s+", re.I)
#: A result in the middle or at the end: Ashby 3 - 1 Brook Vale.
SCORED = re.compile(r"\s+\d{1,3}\s*[-–:]\s*\d{1,3}\s*", re.I)


def sides_of(text: str) -> tuple[str, str] | None:
    """Return who plays at home and who away; None if a cell does not name two sides."""
    for sign, turned in ((BETWEEN, False), (SCORED, False), (AT, True), (DASH, False)):
        parts = [part.strip() for part in sign.split(text, maxsplit=1)]
        if len(parts) == 2 and all(parts):
            return (parts[1], parts[0]) if turned else (parts[0], parts[1])
    return None


def are_pairs(cells: Sequence[str]) -> bool:
    """Return whether most cells of a column name two sides, and more than two play in all."""
    pairs = [pair for cell in cells if (pair := sides_of(cell))]
    return 2 * len(pairs) > len(cells) and len({side for pair in pairs for side in pair}) > 2


def put_sides(cells: dict[str, str], column: str) -> None:
    """Put the two sides of one cell in columns of their own; else it names the opponent."""
    text = cells.pop(column, "")
    sides = sides_of(text)
    if sides:
        cells[HOME], cells[AWAY] = sides
    elif text:
        cells["opponent"] = text
