"""Read dated test results from a CSV file: athlete, date, test, value.

A test is named like the squad file's columns (``squat_1rm_kg``, ``split_10_m_s``,
``sled_50_loss_pct``, ``body_mass_kg``), or as a load lifted so many times to failure
(``squat_5rm_kg``), or freely with its unit at the end (``jump_cm``): those have a trend and set no
load.
"""

import datetime as dt
import re
from collections.abc import Collection
from math import isfinite
from pathlib import Path

from cli.files.dated_rows import DatedRow, dated_rows
from cli.files.known_keys import nearest
from cli.files.read_text import read_any_text
from optimiser.athlete.measured import LIFTED, Measured
from optimiser.athlete.strength import MOST_REPS

COLUMNS = ("athlete", "date", "test", "value")
#: Looked for beside the squad file.
USUAL = "tests.csv"
FREE = re.compile(r"[a-z][a-z0-9_.]{0,39}")
MOST = 1000.0


def read_measured(
    path: Path, exercises: Collection[str], names: Collection[str] | None = None
) -> list[Measured]:
    """Return the results in ``path``.

    Parameters
    ----------
    exercises
        Keys that may be lifted.
    names
        Athletes of the squad; anybody if left out.

    Raises
    ------
    InputError
        With line and column, if anything in it cannot be used.
    """
    return [_result(row, exercises, names) for row in dated_rows(path, COLUMNS, COLUMNS)]


def of_qualities(path: Path) -> bool:
    """Tell whether a file of tests is the other kind, by quality, which `fit` reads."""
    head = read_any_text(path).partition("\n")[0].lower()
    return "quality" in head and "result" in head


def _result(row: DatedRow, exercises: Collection[str], names: Collection[str] | None) -> Measured:
    date = row.date("date")
    if date.year < 1950 or date > dt.date(2200, 1, 1):
        raise row.error("date", "must lie between 1950 and 2200", "correct it")
    return Measured(
        athlete=row.need("athlete") if names is None else row.athlete(names),
        date=date,
        test=_test(row, exercises),
        value=_value(row),
    )


def _test(row: DatedRow, exercises: Collection[str]) -> str:
    given = "_".join(row.need("test").lower().split())
    lift = LIFTED.fullmatch(given)
    if lift and lift["key"] not in exercises:
        close = nearest(lift["key"], exercises)
        do = f"did you mean {close}_{lift['reps']}rm_kg?" if close else "use a key of the library"
        raise row.error("test", "must name an exercise of the library", do)
    if lift and not 1 <= int(lift["reps"]) <= MOST_REPS:
        raise row.error("test", f"must be of 1 to {MOST_REPS} repetitions", "test a heavier load")
    if not FREE.fullmatch(given):
        raise row.error(
            "test", "must be letters, digits and underscores, such as jump_cm", "write it so"
        )
    return given


def _value(row: DatedRow) -> float:
    text = row.need("value")
    try:
        value = float(text)
    except ValueError:
        must = "must be a number without a unit, decimals with a point"
        raise row.error("value", must, "correct it") from None
    if not (isfinite(value) and 0 < value <= MOST):
        raise row.error("value", f"must be above 0 and at most {MOST:g}", "correct it")
    return value
