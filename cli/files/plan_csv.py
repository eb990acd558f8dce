"""A plan typed as a CSV table, one row a week and quality, and the same way out."""

import csv
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from cli.files.csv_head import cells_of_row, read_head, unlisted
from cli.files.errors import InputError
from cli.files.plan_rows import NEEDED, PASSED_OVER, USED, PlanRow, plan_of_rows
from cli.files.read_text import read_text
from cli.files.safe_cell import plain_cell, safe_csv
from cli.render.week_columns import IN_FILE, Column
from optimiser.domain.document import PlanDocument, QualityPart, WeekPart
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.rule import Rule


def read_plan_csv(path: Path, season: Season, rules: Sequence[Rule]) -> Plan:
    """Return the plan in ``path``.

    The first line names the columns, separated by commas or semicolons: week, quality, band and
    dose must be there; field, gym, block and monday may be.

    Raises
    ------
    InputError
        With the line, if anything in it cannot be used.
    """
    text = read_text(path)
    try:
        return plan_of_rows(path, list(_rows(path, text)), season, rules)
    except csv.Error as error:
        raise InputError.from_csv(path, error) from None


def _rows(path: Path, text: str) -> Iterator[PlanRow]:
    lines = text.splitlines(keepends=True)
    semicolons = bool(lines) and ";" in lines[0] and "," not in lines[0]
    rows = csv.reader(lines, delimiter=";" if semicolons else ",", strict=True)
    columns = plan_columns(path, "line 1", next(rows, []))
    line = rows.line_num + 1
    for row in rows:
        if any(cell.strip() for cell in row):
            yield PlanRow(f"line {line}", _cells(path, f"line {line}", columns, row))
        line = rows.line_num + 1


def _cells(path: Path, where: str, columns: list[str], row: list[str]) -> dict[str, str]:
    return {
        name: plain_cell(cell) for name, cell in cells_of_row(path, where, columns, row).items()
    }


def plan_columns(path: Path, where: str, header: Sequence[str]) -> list[str]:
    """Return the names of the columns, checked.

    Raises
    ------
    InputError
        If one is unknown or twice there, or one that must be there is not.
    """
    known = (*USED, *PASSED_OVER)
    return read_head(path, header, NEEDED, unlisted(path, known, USED, where), where)


def plan_csv(document: PlanDocument, *, first: int = 1, last: int | None = None) -> str:
    """Return a document as a CSV table that reads back as the same choices."""
    names = [column.file or "" for column in IN_FILE]
    rows = (
        dict(zip(names, _values(week, key, part), strict=True))
        for week in document.weeks
        if first <= week.week <= (last or len(document.weeks))
        for key, part in week.qualities.items()
    )
    return safe_csv(names, rows)


def _values(week: WeekPart, key: str, part: QualityPart) -> list[Any]:
    return [
        column.value(week) if isinstance(column, Column) else column.value(key, part)
        for column in IN_FILE
    ]
