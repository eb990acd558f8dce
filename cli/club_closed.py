"""What of a club is closed on which days, as its folder keeps it."""

import datetime as dt
from collections.abc import Mapping, Sequence
from pathlib import Path

from cli.club import Closed
from cli.files.dated_rows import DatedRow, dated_rows
from cli.files.known_keys import nearest
from cli.files.rows_added import rows_added
from cli.season.club_folder import CLOSED, ClubFolder
from cli.season.commit import Action, commit
from cli.season.history import State
from optimiser.days.shared import Pool
from optimiser.domain.calendar_day import monday_of

COLUMNS = ("date", "shared")
#: What is closed by the Monday of its week.
ByMonday = Mapping[dt.date, tuple[Closed, ...]]


def read_closed(path: Path, pools: Sequence[Pool]) -> dict[dt.date, tuple[Closed, ...]]:
    """Return what is closed in each week; nothing if there is no file.

    Columns: date, and shared, the name of a room or a person.

    Raises
    ------
    InputError
        With line and column, if anything in it cannot be used.
    """
    found: dict[dt.date, list[Closed]] = {}
    for row in _rows(path):
        date = row.date("date")
        day = Closed(_pool(row, pools), date.weekday())
        found.setdefault(monday_of(date), []).append(day)
    return {monday: tuple(dict.fromkeys(days)) for monday, days in found.items()}


def keep_closed(
    folder: ClubFolder,
    seen: State,
    pools: Sequence[Pool],
    monday: dt.date,
    closed: Sequence[Closed],
) -> None:
    """Write what is closed in one week into the file, other rows left; it can be undone.

    Parameters
    ----------
    seen
        What stood in the file when it was read.

    Raises
    ------
    ChangedMeanwhileError
        If somebody has written into it since.
    """
    text = (seen.get(CLOSED) or b"").decode("utf-8-sig")
    gone = {row.where for row in _rows(folder.closed) if monday_of(row.date("date")) == monday}
    lines = text.splitlines(keepends=True)
    kept = [line for number, line in enumerate(lines, 1) if f"line {number}" not in gone]
    rows = [
        {"date": str(monday + dt.timedelta(days=each.day)), "shared": pools[each.pool].name}
        for each in sorted(closed, key=lambda each: (each.day, each.pool))
    ]
    data = rows_added("".join(kept), rows, COLUMNS).encode("utf-8")
    commit(folder, Action("club", f"week of {monday}"), {CLOSED: data}, seen)


def _rows(path: Path) -> list[DatedRow]:
    return dated_rows(path, COLUMNS, COLUMNS) if path.is_file() else []


def _pool(row: DatedRow, pools: Sequence[Pool]) -> int:
    names = [pool.name for pool in pools]
    known = {name.casefold(): number for number, name in enumerate(names)}
    given = row.need("shared").casefold()
    if given not in known:
        close = nearest(given, known)
        do = f"did you mean {names[known[close]]}?" if close else "correct it"
        raise row.error("shared", f"must be one of {', '.join(names) or 'what is shared'}", do)
    return known[given]
