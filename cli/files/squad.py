"""Read a squad from a CSV file.

One row an athlete; the first line names the columns, in any order, separated by commas or
semicolons. Empty cells mean not known. Decimals are written with a point.

name, group, body_mass_kg
    Must be there. Group is starters, squad, non-playing or returning.
age, under_18
    Whole years; yes or no. Either, both or none. In place of age ``born`` (or ``birth date``,
    ``date of birth``, ``dob``): the age is that of the season's first day.
training_level
    Beginner, intermediate or advanced, of somebody under 18; beginner if left out.
height_cm
    Body height.
EXERCISE_1rm_kg
    Measured 1RM of an exercise of the library, such as ``squat_1rm_kg``.
EXERCISE_load_kg, EXERCISE_reps
    A set to failure from which the 1RM is estimated.
split_METRES_m_s
    Time from a standing start in s, such as ``split_10_m_s``.
sled_PERCENT_loss_pct
    Loss of top speed in per cent under a sled of so many per cent of body mass.
restriction
    Contraindications of the library, separated by semicolons (in quotes where semicolons part
    the columns), each alone or with dates: ``knee; shoulder 2026-08-01/2026-09-15``. Either
    date may be left out: ``back /2026-09-15``.
unavailable_from, unavailable_to
    First and last day without training.
cleared, plyometrics_ready
    Yes or no; no if left out.

Other columns are a person's own: they are kept and not read. Lines that begin with # are comments.
"""

import datetime as dt
from collections.abc import Collection, Iterator
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from cli.files.birth_dates import with_ages
from cli.files.csv_head import cells_of_row
from cli.files.csv_rows import any_filled, csv_rows, is_comment
from cli.files.errors import InputError
from cli.files.own_columns import tell_own
from cli.files.read_text import read_text
from cli.files.rows_added import separator_of
from cli.files.squad_cells import Cell
from cli.files.squad_columns import FIXED, LIFT, NEEDED, SLED, SPLIT, column_of_field, read_columns
from optimiser.athlete.squad import Athlete, Squad

Row = tuple[int, dict[str, str]]


def read_squad(
    path: Path, exercises: Collection[str], tags: Collection[str], on: dt.date | None = None
) -> Squad:
    """Return the squad in ``path``.

    Parameters
    ----------
    exercises
        Keys that may be tested.
    tags
        Contraindications a restriction may name.
    on
        The day that ages are worked out for from days of birth: the first one of the season, so
        that who turns 18 in it is held to what protects the young all through. Left out, today.

    Raises
    ------
    InputError
        With line and column, if anything in it cannot be used.
    """
    rows = with_ages(path, list(_rows(path, read_text(path), exercises)), on or dt.date.today())
    _check_names(path, rows)
    athletes = tuple(_athlete(path, line, cells, tags) for line, cells in rows)
    try:
        return Squad(athletes=athletes)
    except ValidationError as error:
        raise InputError.from_pydantic(path, error, Squad) from None


def lists_nobody(path: Path) -> bool:
    """Tell whether a squad file has its first line and no athlete yet, as a new season's has."""
    if not path.is_file():
        return False
    lines = [line for line in read_text(path).splitlines() if not line.startswith("#")]
    return not any(line.strip(" ,;\t") for line in lines[1:])


def _rows(path: Path, text: str, exercises: Collection[str]) -> Iterator[Row]:
    """Yield each row that is not empty: the line it starts on and its cells by column."""
    lines = text.splitlines(keepends=True)
    head = next((line for line in lines if line.strip() and not is_comment([line])), "")
    rows = csv_rows(path, lines, separator_of(head) if head else ",")
    filled = [(line, row) for line, row in rows if any_filled(row) and not is_comment(row)]
    line, header = filled[0] if filled else (1, [])
    columns, own = read_columns(path, header, exercises, f"line {line}")
    tell_own(path, own)
    for line, row in filled[1:]:
        yield line, _cells(path, line, columns, row)


def _cells(path: Path, line: int, columns: list[str], row: list[str]) -> dict[str, str]:
    do = "write decimals with a point, and put text that holds a comma in double quotes"
    cells = cells_of_row(path, f"line {line}", columns, row, do)
    for name in NEEDED:
        if name not in cells:
            raise InputError(
                path, f"line {line}, {name}", "must be given", "an empty cell", "fill it in"
            )
    return cells


def _check_names(path: Path, rows: list[Row]) -> None:
    if not rows:
        raise InputError(
            path, "", "must list at least one athlete", "an empty list", "add a row for each"
        )
    seen: dict[str, int] = {}
    for line, cells in rows:
        first = seen.setdefault(cells["name"].casefold(), line)
        if first != line:
            raise InputError(
                path,
                f"line {line}, name",
                "every athlete must have a name of their own",
                f"{cells['name']}, as in line {first}",
                "add an initial to tell them apart, or take one row out",
            )


def _athlete(path: Path, line: int, cells: dict[str, str], tags: Collection[str]) -> Athlete:
    fields: dict[str, Any] = {}
    for name, text in cells.items():
        _put(fields, name, Cell(path, f"line {line}, {name}", text), tags)
    try:
        return Athlete.model_validate(fields)
    except ValidationError as error:
        told = InputError.from_pydantic(path, error, Athlete)
        column = column_of_field(error.errors(include_url=False)[0]["loc"])
        where = f"line {line}, {column}" if column else f"line {line}"
        raise InputError(path, where, told.must, told.got, told.do) from None


def _put(fields: dict[str, Any], name: str, cell: Cell, tags: Collection[str]) -> None:
    """Put what ``cell`` says where an athlete has it."""
    lift, split, sled = LIFT.fullmatch(name), SPLIT.fullmatch(name), SLED.fullmatch(name)
    if name == "restriction":
        fields["restrictions"] = list(cell.restrictions(tags))
    elif name in FIXED:
        fields[name] = _fixed(name, cell)
    elif split:
        fields.setdefault("splits", {})[float(split["at"])] = cell.number()
    elif sled:
        fields.setdefault("sled_losses", {})[float(sled["at"])] = cell.number()
    elif lift:
        key = lift["what"].replace("1rm", "one_rm")
        fields.setdefault("lifts", {}).setdefault(lift["key"], {})[key] = cell.number()


def _fixed(name: str, cell: Cell) -> Any:
    if name in ("body_mass_kg", "height_cm", "age"):
        return cell.number()
    if name in ("under_18", "cleared", "plyometrics_ready"):
        return cell.yes()
    if name == "training_level":
        return cell.text.lower()
    if name in ("unavailable_from", "unavailable_to"):
        return cell.date()
    return cell.group() if name == "group" else cell.text
