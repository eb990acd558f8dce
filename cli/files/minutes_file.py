"""Read who played how long from a CSV file: athlete, date, minutes."""

import datetime as dt
from collections import defaultdict
from collections.abc import Collection
from math import isfinite
from pathlib import Path

from cli.files.dated_rows import DatedRow, dated_rows

COLUMNS = ("athlete", "date", "minutes")
#: Looked for beside the squad file.
USUAL = "minutes.csv"
MOST = 240.0

Played = dict[str, dict[dt.date, float]]


def read_minutes(path: Path, names: Collection[str], matches: Collection[dt.date]) -> Played:
    """Return the minutes by athlete and day of a match; those of one day add up.

    Raises
    ------
    InputError
        With line and column, if anything in it cannot be used.
    """
    played: Played = defaultdict(dict)
    for row in dated_rows(path, COLUMNS, COLUMNS):
        athlete, day = row.athlete(names), row.date("date")
        if day not in matches:
            raise row.error("date", "must be the day of a match of the season", "correct the date")
        own = played[athlete]
        own[day] = own.get(day, 0.0) + _minutes(row)
    return dict(played)


def _minutes(row: DatedRow) -> float:
    try:
        value = float(row.need("minutes"))
    except ValueError:
        value = -1.0
    if not (isfinite(value) and 0 <= value <= MOST):
        must = f"must be a number from 0 to {MOST:g}"
        raise row.error("minutes", must, "write the minutes played, 0 for none")
    return value
