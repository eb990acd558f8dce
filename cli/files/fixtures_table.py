"""Fixtures from rows of cells, whichever file they came from."""

from collections.abc import Iterator, Sequence
from pathlib import Path

from cli.files.csv_head import cells_of_row
from cli.files.errors import InputError
from cli.files.fixtures_clubs import clubs_of, is_league, rows_of_club
from cli.files.fixtures_columns import (
    COLUMNS,
    KIND,
    STATUS,
    TITLE_ROWS,
    column_of,
    has_date,
    misspelt,
)
from cli.files.fixtures_dates import (
    date_order,
    day_in,
    is_moment,
    local_moment,
    split_cell,
    telling_date,
)
from cli.files.fixtures_found import NO_ZONE, Asked, DateOrder, Found, LeftOut
from cli.files.fixtures_row import fixture_of, names_grounds
from cli.files.fixtures_words import event_kind
from cli.files.listed import Listed
from cli.files.safe_cell import plain_cell

#: Where a row stands, and its cells.
Row = tuple[str, Sequence[str]]
Given = tuple[str, dict[str, str]]
#: What stands for an opponent where nobody is played.
NOBODY = ("bye", "bye week", "rest", "no match", "no game", "free", "spielfrei", "exempt")
NAMES = ("opponent", "competition", STATUS, KIND)


def table_found(path: Path, rows: Sequence[Row], asked: Asked) -> Found:
    """Return the fixtures of a table, the first rows of which may be a title.

    Raises
    ------
    InputError
        With the place, if anything in it cannot be used.
    """
    head, where, header = _head(rows)
    columns, notices = _columns(path, where, header)
    given = list(_given(path, columns, rows[head + 1 :]))
    notices += _without_grounds(given)
    notices += _without_zones(given, asked.zone)
    everyones, club = (given if is_league(columns) else []), ""
    if everyones:
        club, given = rows_of_club(path, given, asked)
    left_out = [item for row in given if (item := _left_out(row, asked))]
    away = {item.where for item in left_out}
    kept = [row for row in given if row[0] not in away]
    # a whole league's column tells more than the dates of one club
    order = _order(path, everyones or kept, asked)
    notices += [] if asked.dates else _read_so(everyones or kept, order)
    listed = [Listed(fixture_of(path, place, cells, order), place) for place, cells in kept]
    ranked = "priority" in columns
    others = max(0, len(everyones) - len(given))
    rows_there = len(given) + others
    return Found(listed, rows_there, "row", left_out, notices, ranked, club, others)


def league_clubs(path: Path, rows: Sequence[Row]) -> tuple[str, ...]:
    """Return the clubs of a whole league's table.

    Raises
    ------
    InputError
        If it does not say who plays at home and who away.
    """
    head, where, header = _head(rows)
    columns, _ = _columns(path, where, header)
    if not is_league(columns):
        must = "must have the columns date, home and away"
        raise InputError(path, where, must, ", ".join(header), "name them so in its first line")
    return clubs_of(list(_given(path, columns, rows[head + 1 :])))


def _head(rows: Sequence[Row]) -> tuple[int, str, Sequence[str]]:
    """Return the row that names the columns: its number, its place and its names.

    Where no name says that a column holds the dates, the one that does is taken for it.
    """
    if not rows:
        return 0, "line 1", []
    named = next((n for n, row in enumerate(rows[:TITLE_ROWS]) if has_date(row[1])), None)
    if named is not None:
        return named, *rows[named]
    found = _dated(rows)
    if found is None:
        return 0, *rows[0]
    number, column = found
    where, header = rows[number]
    return number, where, [*header[:column], "date", *header[column + 1 :]]


def _dated(rows: Sequence[Row]) -> tuple[int, int] | None:
    """Return a row of names, and which column holds a date in every row below it."""
    for number, (_, names) in enumerate(rows[:TITLE_ROWS]):
        below = [cells for _, cells in rows[number + 1 :] if any(cells)]
        for column in range(len(names)):
            held = [cells[column] for cells in below if column < len(cells)]
            if held and len(held) == len(below) and all(map(_is_day, held)):
                return None if _is_day(names[column]) else (number, column)
    return None


def _is_day(cell: str) -> bool:
    day, _ = split_cell(plain_cell(cell.strip()))
    return bool(day_in(day, "day-first") or day_in(day, "month-first"))


def _columns(path: Path, where: str, header: Sequence[str]) -> tuple[list[str], list[str]]:
    names = [name.strip() for name in header]
    while names and not names[-1]:
        names.pop()
    columns = [column_of(name) for name in names]
    _check_columns(path, where, names, columns)
    strange = [name for name, column in zip(names, columns, strict=True) if name and not column]
    told = f"columns left out, as they are not known: {', '.join(strange)}"
    return columns, [told] if strange else []


def _check_columns(path: Path, where: str, names: list[str], columns: list[str]) -> None:
    for name, column in zip(names, columns, strict=True):
        if not column and misspelt(name):
            must = f"columns must be among {', '.join(COLUMNS)}"
            raise InputError(path, where, must, f'"{name}"', f"did you mean {misspelt(name)}?")
    twice = [name for name in columns if name and columns.count(name) > 1]
    if twice:
        raise InputError(
            path, where, "a column must come once", f"{twice[0]} twice", "take one out"
        )
    if "date" not in columns:
        raise InputError(
            path,
            where,
            "the first line must name the columns, date among them",
            ", ".join(names) or "an empty line",
            f"start the file with a line such as {','.join(COLUMNS[:3])}",
        )


def _given(path: Path, columns: Sequence[str], rows: Sequence[Row]) -> Iterator[Given]:
    for where, row in rows:
        cells = [plain_cell(cell.strip()) for cell in row]
        told = cells_of_row(path, where, columns, cells)
        if any(cells):
            yield where, {name: cell for name, cell in told.items() if name}


def _without_grounds(given: Sequence[Given]) -> list[str]:
    """Take a column of grounds out of the rows, for a fixture knows only home and away."""
    if not names_grounds([cells["venue"] for _, cells in given if "venue" in cells]):
        return []
    for _, cells in given:
        cells.pop("venue", None)
    return ["the venue is left out, as no row says home, away or neutral"]


def _without_zones(given: Sequence[Given], zone: str) -> list[str]:
    """Turn moments into days and times of the zone asked for."""
    moments = [cells for _, cells in given if is_moment(cells.get("date", ""))]
    for cells in moments:
        cells["date"] = local_moment(cells["date"], zone)
    return [NO_ZONE] if moments and not zone else []


def _left_out(row: Given, asked: Asked) -> LeftOut | None:
    where, cells = row
    kinds = [event_kind(cells[name]) for name in NAMES if name in cells]
    kind = next((kind for kind in kinds if kind), "")
    if not kind and cells.get("opponent", "").lower() in NOBODY:
        kind = "nobody"
    text = " ".join(cells.get(name, "") for name in NAMES)
    if not kind and asked.match.casefold() not in text.casefold():
        kind = "other"
    name = cells.get("opponent") or cells.get("competition") or cells.get("date", "")
    return LeftOut(where, name, kind) if kind else None


def _order(path: Path, rows: Sequence[Given], asked: Asked) -> DateOrder:
    dates = {where: split_cell(cells.get("date", ""))[0] for where, cells in rows}
    order, unsure = date_order(list(dates.values()))
    if asked.dates or not unsure:
        return asked.dates or order
    where = next(place for place, date in dates.items() if date == unsure)
    raise InputError(
        path,
        f"{where}, date",
        "must be year-month-day such as 2026-09-05, or some date of the column must tell the "
        "day from the month",
        f"{unsure}, which is {_said(unsure, 'day-first')} or {_said(unsure, 'month-first')}",
        "say which by `seasonwright new --dates day-first` or `--dates month-first`",
    )


def _read_so(rows: Sequence[Given], order: DateOrder) -> list[str]:
    """Say which of day and month is taken to come first, where some dates do not tell."""
    dates = [split_cell(cells.get("date", ""))[0] for _, cells in rows]
    told = telling_date(dates, order) if order else ""
    return [f"dates are read {order}, as {told} can only be read so"] if told else []


def _said(date: str, order: DateOrder) -> str:
    day = day_in(date, order)
    return f"{day} ({order})" if day else ""
