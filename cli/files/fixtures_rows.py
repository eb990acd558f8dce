"""Rows of a fixture table: which are matches, and which are headings, notes and totals."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from cli.files.csv_head import cells_of_row
from cli.files.csv_rows import cells_by_column
from cli.files.fixtures_clubs import AWAY, HOME
from cli.files.fixtures_columns import KIND, PAIR, has_date
from cli.files.fixtures_dates import clock, split_cell
from cli.files.fixtures_found import LeftOut
from cli.files.fixtures_head import Head
from cli.files.fixtures_months import month_of
from cli.files.fixtures_weekdays import weekday_named
from cli.files.fixtures_words import is_nobody
from cli.files.fixtures_years import heading_month
from cli.files.safe_cell import plain_cell

Given = tuple[str, dict[str, str]]
#: What stands above rows, kept with each of them; it is no column.
HEADING = "heading"
SIDES = ("opponent", HOME, AWAY, PAIR)
#: Longest heading that is taken for a competition.
LONGEST_HEADING = 40


@dataclass
class Rows:
    """The rows of a table.

    Parameters
    ----------
    given
        Those with a date, by column.
    left_out
        Those without.
    carried
        Where rows took their date from the row above.
    """

    given: list[Given] = field(default_factory=list)
    left_out: list[LeftOut] = field(default_factory=list)
    carried: list[str] = field(default_factory=list)


def sorted_rows(path: Path, head: Head, *, wide: bool) -> Rows:
    """Return the rows below the names of the columns.

    Parameters
    ----------
    wide
        Whether what stands to the right of the table counts for nothing.

    Raises
    ------
    InputError
        If a row is wider than the table and that is not so.
    """
    found, heading = Rows(), _month_above(head)
    for where, cells in _told(path, head, wide=wide):
        filled = set(cells.values())
        text = next(iter(filled))
        if has_date(list(filled)) and len(filled) > 1:
            continue
        alone = len(filled) == 1 and not _is_side(head, cells)
        if alone and (not _dated(cells) or (head.columns[1:] and _is_note(text))):
            heading = text
            found.left_out.append(LeftOut(where, text, HEADING))
            continue
        if heading:
            cells.setdefault(HEADING, heading)
        _put(found, where, cells)
    return found


def _month_above(head: Head) -> str:
    """Return the month that stands right above the names of the columns, if one does."""
    last = head.titles[-1] if head.titles else ""
    return last if heading_month(last) else ""


def _is_note(text: str) -> bool:
    """Tell whether a cell is more than a date: it has a word that is in none."""
    words = re.findall(r"[^\W\d_]{4,}", text)
    return any(month_of(word) is None and weekday_named(word) is None for word in words)


def _is_side(head: Head, cells: dict[str, str]) -> bool:
    """Tell whether what a row holds is an opponent; in the first column it is a heading."""
    return next(iter(cells)) in SIDES and next(iter(cells)) != head.columns[0]


def _told(path: Path, head: Head, *, wide: bool) -> Iterator[Given]:
    for where, row in head.rows:
        cells = [plain_cell(cell.strip()) for cell in row]
        if not any(cells):
            continue
        # columns that are not known are kept under a name nobody reads: they tell a heading
        columns = [name or f"?{number}" for number, name in enumerate(head.columns)]
        told = cells_by_column(columns, cells)
        if not wide:
            cells_of_row(path, where, columns, cells)
        yield where, told or {"?": next(filter(None, cells))}


def _dated(cells: dict[str, str]) -> bool:
    return any(sign.isdigit() for sign in cells.get("date", ""))


def _put(found: Rows, where: str, cells: dict[str, str]) -> None:
    if _dated(cells):
        found.given.append((where, cells))
        return
    date, before = cells.get("date", ""), found.given[-1][1] if found.given else {}
    if not date and _goes_on(before, cells):
        found.carried.append(where)
        found.given.append((where, {**cells, "date": split_cell(before["date"])[0]}))
        return
    played = any(cells.get(side) for side in SIDES)
    found.left_out.append(LeftOut(where, _name(cells) or date, _why(cells) if played else HEADING))


def _why(cells: dict[str, str]) -> str:
    return "nobody" if is_nobody(cells.get("opponent", "")) else "undated"


def _name(cells: dict[str, str]) -> str:
    """Return what a row is known by: its competition and its sides."""
    sides = " v ".join(cells[side] for side in SIDES if cells.get(side))
    return ", ".join(filter(None, (cells.get("competition") or cells.get(KIND), sides)))


def _goes_on(before: dict[str, str], cells: dict[str, str]) -> bool:
    """Tell whether a row without a date is a later match of the day above it."""
    times = [clock(each.get("kickoff", "")) if each.get("kickoff") else None
             for each in (before, cells)]  # fmt: skip
    first, second = times
    played = any(cells.get(side) for side in SIDES)
    return bool(played and first and second and first < second)


def competition_of(heading: str) -> str:
    """Return a heading that may name a competition; "" for a month, a year or a long note."""
    words = heading.strip().strip("*").strip()
    letters = any(sign.isalpha() for sign in words)
    plain = letters and len(words) <= LONGEST_HEADING and heading_month(words) is None
    return words if plain else ""


def given_by(rows: Sequence[Given], column: str) -> list[str]:
    """Return what rows hold in a column."""
    return [cells[column] for _, cells in rows if column in cells]
