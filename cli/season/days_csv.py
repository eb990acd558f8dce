"""The file of what people ask of a season's days: sessions pinned to days and kept off them."""

import datetime as dt
from collections.abc import Mapping
from pathlib import Path

from cli.files.dated_rows import DatedRow, dated_rows
from optimiser.days.day import minutes_of
from optimiser.days.holds import DayHold, Thing
from optimiser.domain.season import Season

COLUMNS = ("date", "what", "ask", "at")
THINGS: tuple[Thing, ...] = ("field", "gym", "practice")
ASKS = ("on", "off")
#: What is asked, by week (from 0).
Asked = Mapping[int, tuple[DayHold, ...]]


def read_asked(path: Path, season: Season) -> dict[int, tuple[DayHold, ...]]:
    """Return what is asked of each week; nothing if there is no file.

    Columns: date, what (field, gym or practice), ask (on or off) and at (HH:MM, of what is on).

    Raises
    ------
    InputError
        With line and column, if anything in it cannot be used.
    """
    found: dict[int, list[DayHold]] = {}
    if path.is_file():
        for row in dated_rows(path, COLUMNS[:3], COLUMNS):
            week, hold = _hold(row, season)
            found.setdefault(week, []).append(hold)
    return {week: tuple(dict.fromkeys(holds)) for week, holds in found.items()}


def _hold(row: DatedRow, season: Season) -> tuple[int, DayHold]:
    date, first = row.date("date"), season.weeks[0].monday
    index = (date - first).days // 7
    if not 0 <= index < len(season.weeks):
        last = season.weeks[-1].monday + dt.timedelta(days=6)
        raise row.error("date", f"must lie in the season, {first} to {last}", "correct it")
    thing, ask = row.need("what").lower(), row.need("ask").lower()
    if thing not in THINGS:
        raise row.error("what", f"must be one of {', '.join(THINGS)}", "correct it")
    if ask not in ASKS:
        raise row.error("ask", "must be on or off", "correct it")
    return index, DayHold(thing, date.weekday(), ask == "on", _start(row, ask))


def _start(row: DatedRow, ask: str) -> int | None:
    text = row.cells.get("at", "")
    if not text:
        return None
    if ask == "off":
        raise row.error("at", "must be empty where something is kept off a day", "drop it")
    try:
        return minutes_of(dt.time.fromisoformat(text))
    except ValueError:
        raise row.error("at", "must be a time such as 18:00", "write it so") from None


def written(asked: Asked, season: Season) -> str:
    """Return the text of the file."""
    lines = [
        ",".join((*_cells(season, week, hold),))
        for week, holds in sorted(asked.items())
        for hold in sorted(holds, key=lambda each: (each.day, each.thing, each.on))
    ]
    return "\n".join([",".join(COLUMNS), *lines, ""])


def _cells(season: Season, week: int, hold: DayHold) -> tuple[str, str, str, str]:
    date = season.weeks[week].monday + dt.timedelta(days=hold.day)
    at = "" if hold.start is None else f"{hold.start // 60:02d}:{hold.start % 60:02d}"
    return str(date), hold.thing, ASKS[not hold.on], at
