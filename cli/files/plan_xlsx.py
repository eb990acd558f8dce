"""A plan read back from the season sheet of a workbook, after a coach has changed it."""

import datetime as dt
import io
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any
from zipfile import ZipFile

from cli.files.errors import InputError
from cli.files.plan_rows import PlanRow, plan_of_rows
from cli.files.read_text import read_bytes
from cli.render.clean_text import clean
from cli.render.week_columns import COLUMNS, OF_QUALITY
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.rule import Rule

SHEET = "Season"
#: Columns of a whole week that are read, by their names on the sheet; of each quality they follow.
READ = {each.sheet: each.file for each in COLUMNS if each.sheet and each.file and each.back != "no"}
WEEK = "Week"
OF_EACH = [column for column in OF_QUALITY if column.sheet]
#: Rows in which the names of the columns are looked for, and most rows and columns read.
DEEPEST, MOST_ROWS, MOST_COLUMNS = 12, 600, 80
#: Most bytes a workbook may unpack to; one of 104 weeks has less than 1 MB.
MOST_UNPACKED = 50_000_000


def quality_heads(season: Season) -> dict[str, tuple[str, ...]]:
    """Return the names of the columns that each quality has, by its key."""
    names = {quality.key: clean(quality.name) or quality.key for quality in season.qualities}
    told = list(names.values())
    unlike = {key: name if told.count(name) == 1 else key for key, name in names.items()}
    return {
        key: tuple(f"{name} {column.sheet}" for column in OF_EACH) for key, name in unlike.items()
    }


def read_plan_xlsx(path: Path, season: Season, rules: Sequence[Rule]) -> Plan:
    """Return the plan on the sheet ``Season`` of a workbook that `report` wrote.

    Raises
    ------
    InputError
        With the row, if anything on it cannot be used.
    """
    rows = _cells(path)
    at, names = _head(path, rows)
    wanted = [WEEK, *(head for pair in quality_heads(season).values() for head in pair)]
    missing = [name for name in wanted if name not in names]
    if missing:
        raise InputError(
            path,
            f"sheet {SHEET}, row {at + 1}",
            f"must name the columns {', '.join(wanted)}",
            f"no {missing[0]}",
            "name the scenario this workbook was made for, or put the name back",
        )
    return plan_of_rows(path, list(_rows(rows, at, names, season)), season, rules)


def read_group(path: Path) -> str:
    """Return whose plan a workbook holds, if it is that of one group; `report` says so in it.

    Raises
    ------
    InputError
        If it is no workbook.
    """
    try:
        return str(_book(path).properties.category or "")
    except Exception as error:  # the library lets whatever goes wrong inside it come out
        raise _no_workbook(path, error) from None


def _book(path: Path) -> Any:
    from openpyxl import load_workbook

    data = io.BytesIO(read_bytes(path))
    unpacked = sum(part.file_size for part in ZipFile(data).infolist())
    if unpacked > MOST_UNPACKED:
        raise ValueError(f"one that unpacks to {unpacked // 1_000_000} MB")
    return load_workbook(data, read_only=True, data_only=True)


def _no_workbook(path: Path, error: Exception) -> InputError:
    if isinstance(error, InputError):
        return error
    said = str(error) or type(error).__name__
    return InputError(path, "", "must be a workbook (.xlsx)", said, "save it again as .xlsx")


def _cells(path: Path) -> list[list[str]]:
    """Return the sheet as text, row by row."""
    try:
        book = _book(path)
        names = list(book.sheetnames)
        found = book[SHEET] if SHEET in names else None
        if found is not None:
            found.reset_dimensions()
            rows = found.iter_rows(max_row=MOST_ROWS, max_col=MOST_COLUMNS, values_only=True)
            return [[_text(value) for value in row] for row in rows]
    except Exception as error:  # the library lets whatever goes wrong inside it come out
        raise _no_workbook(path, error) from None
    do = "name a workbook that report wrote"
    raise InputError(path, "", f"must have a sheet {SHEET}", ", ".join(names), do)


def _text(value: Any) -> str:
    """Return what a cell says; spreadsheets keep 3 as 3.0 and a date with a time."""
    if value is None:
        return ""
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    if isinstance(value, dt.datetime):
        return value.date().isoformat()
    return str(value).strip()


def _head(path: Path, rows: list[list[str]]) -> tuple[int, list[str]]:
    for at, row in enumerate(rows[:DEEPEST]):
        if WEEK in row:
            return at, row
    raise InputError(
        path,
        f"sheet {SHEET}",
        f"must have a row with the names of its columns, {WEEK} among them",
        f"none in rows 1-{DEEPEST}",
        "put the row back as it was",
    )


def _rows(rows: list[list[str]], at: int, names: list[str], season: Season) -> Iterator[PlanRow]:
    """Yield a row a week and quality, as a table typed in CSV would have them."""
    heads = quality_heads(season)
    for number, cells in enumerate(rows[at + 1 :], at + 2):
        by_name = dict(zip(names, cells, strict=False))
        if not by_name.get(WEEK, "").isdigit():
            continue
        shared = {key: by_name.get(name, "") for name, key in READ.items()}
        for quality in season.qualities:
            named = zip(OF_EACH, heads[quality.key], strict=True)
            own = {column.file: by_name.get(head, "") for column, head in named}
            found = {**shared, "quality": quality.key, **own}
            where = f"sheet {SHEET}, row {number}, {clean(quality.name)}"
            yield PlanRow(where, {key: value for key, value in found.items() if value})
