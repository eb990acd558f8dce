"""Fixtures from rows of cells, whichever file they came from."""

from collections import Counter
from collections.abc import Sequence
from pathlib import Path
from shlex import quote

from cli.files.errors import InputError
from cli.files.fixtures_apart import with_dates
from cli.files.fixtures_clubs import AWAY, HOME, clubs_of, is_league, rows_of_club
from cli.files.fixtures_columns import KIND, PAIR, STATUS, TEAM
from cli.files.fixtures_dates import (
    ORDERS,
    date_order,
    day_in,
    is_moment,
    local_moment,
    split_cell,
    telling_date,
)
from cli.files.fixtures_found import NO_ZONE, DateOrder, FoundFixtures, LeftOut, ListFacts
from cli.files.fixtures_head import Head, Row, head_of
from cli.files.fixtures_pairs import are_pairs, put_sides
from cli.files.fixtures_row import fixture_of
from cli.files.fixtures_rows import HEADING, Given, Rows, given_by, sorted_rows
from cli.files.fixtures_said import one_match_said
from cli.files.fixtures_spread import spread_days
from cli.files.fixtures_whole_dates import weekday_of, whole_dates
from cli.files.fixtures_words import event_kind, is_nobody, off_kind
from cli.files.listed import Listed
from optimiser.domain.wording import listed

NAMES = ("opponent", "competition", STATUS, KIND)
#: Columns whose words are names; of any other, one says that a match is off.
PROSE = ("opponent", HOME, AWAY, HEADING)
#: Rows told one by one in a sentence.
FEW = 4


def table_found(
    path: Path, rows: Sequence[Row], asked: ListFacts, *, wide: bool = False
) -> FoundFixtures:
    """Return the fixtures of a table, the first rows of which may be a title.

    Parameters
    ----------
    wide
        Whether notes may stand to the right of the table.

    Raises
    ------
    InputError
        With the place, if anything in it cannot be used.
    """
    rows, in_columns = with_dates(rows)
    head = head_of(path, rows)
    sorted_ = sorted_rows(path, head, wide=wide)
    given, columns = _in_sides(sorted_.given, head)
    given, of_years = whole_dates(path, given, [path.stem, *head.titles], asked)
    given, of_days = spread_days(given, asked.dates)
    notices = [*filter(None, [in_columns]), *head.notices, *of_years, *of_days, *_carried(sorted_)]
    notices += _without_zones(given, asked.zone)
    everyones, club = (given if is_league(columns) else []), ""
    if everyones:
        club, given = rows_of_club(path, given, asked)
    given, of_places = one_match_said(given)
    left_out = [item for row in given if (item := _left_out(row, asked))]
    left_out += _twice([row for row in given if row[0] not in {out.where for out in left_out}])
    away = {item.where for item in left_out}
    kept = [row for row in given if row[0] not in away]
    # a whole league's column tells more than the dates of one club
    order = _order(path, everyones or kept, asked)
    notices += [] if asked.dates else _read_so(everyones or kept, order)
    found = [Listed(fixture_of(path, place, cells, order), place) for place, cells in kept]
    notices += [*of_places, *_teams(kept), *_other_weekdays(kept, order)]
    others = max(0, len(everyones) - len(given))
    return FoundFixtures(
        found,
        len(given) + others + len(sorted_.left_out),
        "row",
        [*sorted_.left_out, *left_out],
        notices,
        ranked="priority" in columns,
        club=club,
        others=others,
        team=_team(kept),
        apart=columns != head.columns or bool(in_columns or of_years or of_days or sorted_.carried),
    )


def league_clubs(path: Path, rows: Sequence[Row]) -> tuple[str, ...]:
    """Return the clubs of a whole league's table.

    Raises
    ------
    InputError
        If it does not say who plays at home and who away.
    """
    head = head_of(path, with_dates(rows)[0])
    given, columns = _in_sides(sorted_rows(path, head, wide=True).given, head)
    if not is_league(columns):
        must, got = "must have the columns date, home and away", ", ".join(head.names)
        raise InputError(path, rows[0][0], must, got, "name them so in its first line")
    return clubs_of(given)


def _in_sides(given: Sequence[Given], head: Head) -> tuple[list[Given], list[str]]:
    """Return rows and columns without cells that name a match: its sides or its opponent instead.

    Columns that were told by what they hold are not those of the table either.
    """
    columns = ["", *head.columns] if head.guessed else head.columns
    for column in (PAIR, TEAM):
        told = any(name in columns for name in ("opponent", HOME, AWAY))
        if column in columns and not told:
            pairs = are_pairs(given_by(given, column))
            columns = [*columns, *((HOME, AWAY) if pairs else ("opponent",))]
            for _, cells in given:
                put_sides(cells, column) if pairs else _rename(cells, column, "opponent")
    return list(given), columns


def _rename(cells: dict[str, str], name: str, new: str) -> None:
    if name in cells:
        cells[new] = cells.pop(name)


def _carried(rows: Rows) -> list[str]:
    if not rows.carried:
        return []
    return [f"{_places(rows.carried)}: no date, so taken as later matches of the day above"]


def _places(where: Sequence[str]) -> str:
    more = f" and {len(where) - FEW} more" if len(where) > FEW else ""
    return (", ".join(where[:FEW]) + more) if more else listed(where)


def _without_zones(given: Sequence[Given], zone: str) -> list[str]:
    """Turn moments into days and times of the zone asked for."""
    moments = [cells for _, cells in given if is_moment(cells.get("date", ""))]
    for cells in moments:
        cells["date"] = local_moment(cells["date"], zone)
    return [NO_ZONE] if moments and not zone else []


def _left_out(row: Given, asked: ListFacts) -> LeftOut | None:
    where, cells = row
    kinds = [event_kind(cells[name]) for name in NAMES if name in cells]
    kinds += [off_kind(cell) for name, cell in cells.items() if name not in PROSE]
    kind = next((kind for kind in kinds if kind), "")
    if not kind and is_nobody(cells.get("opponent", "")):
        kind = "nobody"
    text = " ".join(cells.get(name, "") for name in (*NAMES, TEAM))
    if not kind and asked.match.casefold() not in text.casefold():
        kind = "other"
    name = cells.get("opponent") or cells.get("competition") or cells.get("date", "")
    return LeftOut(where, name, kind) if kind else None


def _twice(given: Sequence[Given]) -> list[LeftOut]:
    """Return rows that say again what one before them says: opponent, day and kick-off."""
    seen: set[tuple[str, ...]] = set()
    found = []
    for where, cells in given:
        said = tuple(cells.get(name, "") for name in ("date", "kickoff", "opponent", TEAM))
        if all(said[:3]) and said in seen:
            found.append(LeftOut(where, cells["opponent"], "twice"))
        seen.add(said)
    return found


def _team(kept: Sequence[Given]) -> str:
    """Return the team of most rows, if a column names teams."""
    ((team, count),) = Counter(given_by(kept, TEAM)).most_common(1) or [("", 0)]
    return team if 2 * count > len(kept) else ""


def _teams(kept: Sequence[Given]) -> list[str]:
    teams = list(Counter(given_by(kept, TEAM)))
    if len(teams) < 2:
        return []
    return [f"these are of {listed(teams[:FEW])}: `--match {quote(teams[0])}` keeps one team's"]


def _order(path: Path, rows: Sequence[Given], asked: ListFacts) -> DateOrder:
    dates = {where: split_cell(cells.get("date", ""))[0] for where, cells in rows}
    order, unsure = date_order(list(dates.values()))
    if asked.dates or not unsure:
        return asked.dates or order
    if by_weekday := _order_of_weekdays(rows):
        return by_weekday
    where = next(place for place, date in dates.items() if date == unsure)
    raise InputError(
        path,
        f"{where}, date",
        "must be year-month-day such as 2026-09-05, or some date of the column must tell the "
        "day from the month",
        f"{unsure}, which is {_said(unsure, 'day-first')} or {_said(unsure, 'month-first')}",
        "say which by `seasonwright new --dates day-first` or `--dates month-first`",
    )


def _order_of_weekdays(rows: Sequence[Given]) -> DateOrder:
    """Return the order in which every weekday that stands beside a date is right, if one is."""
    told = [(weekday, split_cell(cells["date"])[0]) for _, cells in rows
            if (weekday := weekday_of(cells)) is not None]  # fmt: skip
    right = [
        order
        for order in ORDERS
        if told and all((day := day_in(date, order)) and day.weekday() == weekday
                        for weekday, date in told)
    ]  # fmt: skip
    return right[0] if len(right) == 1 else ""


def _other_weekdays(kept: Sequence[Given], order: DateOrder) -> list[str]:
    """Name the rows whose weekday is another than that of their date."""
    wrong = []
    for where, cells in kept:
        weekday, day = weekday_of(cells), day_in(split_cell(cells["date"])[0], order)
        if day and weekday is not None and day.weekday() != weekday:
            wrong.append(f"{where} ({day} is a {day:%A})")
    if not wrong:
        return []
    return [f"another day of the week is written beside the date in {_places(wrong)}: check it"]


def _read_so(rows: Sequence[Given], order: DateOrder) -> list[str]:
    """Say which of day and month is taken to come first, where some dates do not tell."""
    dates = [split_cell(cells.get("date", ""))[0] for _, cells in rows]
    told = telling_date(dates, order) if order else ""
    if told:
        return [f"dates are read {order}, as {told} can only be read so"]
    unsure = order and date_order(dates)[1]
    return [f"dates are read {order}, as the days of the week beside them say"] if unsure else []


def _said(date: str, order: DateOrder) -> str:
    day = day_in(date, order)
    return f"{day} ({order})" if day else ""
