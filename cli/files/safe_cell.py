"""Cells of CSV files that a spreadsheet must not take for formulas."""

import csv
import io
from collections.abc import Iterable, Mapping, Sequence
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


def safe_csv(columns: Sequence[str], rows: Iterable[Mapping[str, Any]]) -> str:
    """Return rows by column as CSV with one heading, all cells safe."""
    out = io.StringIO()
    writer = csv.DictWriter(out, columns, lineterminator="\n")
    writer.writeheader()
    for row in rows:
        writer.writerow({name: safe_cell(value) for name, value in row.items()})
    return out.getvalue()


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
