"""Cells of CSV files that a spreadsheet must not take for formulas."""

from collections.abc import Iterable, Mapping
from typing import Any

#: Signs with which a spreadsheet lets a formula begin; an apostrophe before them makes it text.
FORMULA = ("=", "+", "-", "@", "\t", "\r")
MARK = "'"
#: How a marked cell begins; a user's own text that does is marked again, to be read back.
MARKED = tuple(f"{MARK}{sign}" for sign in FORMULA)


def safe_cell(value: Any) -> Any:
    """Return a cell that stays text in a spreadsheet; numbers are as they were."""
    if not isinstance(value, str) or _number(value):
        return value
    return f"{MARK}{value}" if value.startswith((*FORMULA, *MARKED)) else value


def safe_rows(rows: Iterable[Mapping[str, Any]]) -> list[dict[str, Any]]:
    """Return rows by column with all their cells safe."""
    return [{name: safe_cell(value) for name, value in row.items()} for row in rows]


def plain_cell(text: str) -> str:
    """Return the text that `safe_cell` marked, as it was."""
    if text.startswith(tuple(f"{MARK}{start}" for start in (*FORMULA, *MARKED))):
        return text[1:]
    return text


def _number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True
