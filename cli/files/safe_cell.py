"""Cells of CSV files that a spreadsheet must not take for formulas."""

from collections.abc import Iterable, Mapping
from typing import Any

#: Signs with which a spreadsheet lets a formula begin; an apostrophe before them makes it text.
FORMULA = ("=", "+", "-", "@", "\t", "\r")
MARK = "'"


def safe_cell(value: Any) -> Any:
    """Return a cell that stays text in a spreadsheet; numbers are as they were."""
    starts = isinstance(value, str) and value.startswith(FORMULA) and not _number(value)
    return f"{MARK}{value}" if starts else value


def safe_rows(rows: Iterable[Mapping[str, Any]]) -> list[dict[str, Any]]:
    """Return rows by column with all their cells safe."""
    return [{name: safe_cell(value) for name, value in row.items()} for row in rows]


def plain_cell(text: str) -> str:
    """Return the text that `safe_cell` marked, as it was."""
    return text[1:] if text.startswith(tuple(f"{MARK}{sign}" for sign in FORMULA)) else text


def _number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True
