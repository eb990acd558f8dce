"""One row of a fixture table becomes a fixture."""

import datetime as dt
import re
from pathlib import Path

from pydantic import ValidationError

from cli.files.errors import InputError
from cli.files.fixtures_columns import COLUMNS
from cli.files.fixtures_dates import NUMBERS, clock, day_in, split_cell
from cli.files.fixtures_found import DateOrder
from optimiser.domain.fixture import Fixture

#: Nobody kicks off earlier in the morning. Common practice, no source.
EARLIEST = 7
HALF = re.compile(r"[ap]\.?m", re.I)
#: The end of a match behind its kick-off, and a result in the place of a time.
UNTIL = re.compile(r"(?<=[\dm])\s*(?:-|–|to|bis)\s*\d{1,2}[:.h]\d{2}.*$", re.I)
SCORE = re.compile(r"\d\s*[-–]\s*\d")
#: A date as it is to be written, of a day that may not be there.
WRITTEN = re.compile(r"\d{4}-\d{1,2}-\d{1,2}")
AMOUNTS = ("minutes", "travel_hours")
COMMA = re.compile(r"\d+,\d+")


def fixture_of(path: Path, where: str, cells: dict[str, str], order: DateOrder) -> Fixture:
    """Return the fixture of a row, its dates in ``order``.

    Raises
    ------
    InputError
        With the place and the column, if a cell cannot be read.
    """
    given = {name: cell for name, cell in cells.items() if name in COLUMNS}
    if "date" not in given:
        raise InputError(path, where, "date must be given", "an empty cell", "fill it in")
    day, time = split_cell(given["date"])
    given["date"] = _date(path, where, day, order)
    _put_kickoff(path, where, given, time)
    _check_amounts(path, where, given)
    given |= {name: given[name].lower() for name in ("priority", "venue") if name in given}
    try:
        return Fixture.model_validate_strings(given)
    except ValidationError as error:
        raise InputError.from_pydantic(path, error, Fixture, where=where) from None


def _date(path: Path, where: str, text: str, order: DateOrder) -> str:
    day = day_in(text, order)
    if day:
        return str(day)
    must = "must be year-month-day such as 2026-09-05"
    do = "write it so"
    if WRITTEN.fullmatch(text):
        must, do = "must be a day that is in the calendar", "correct it"
    if NUMBERS.fullmatch(text):
        must += ", or a day that is in the calendar, in the order of the whole column"
        must += f" ({order})" if order else ""
        do = "correct it, or write all dates in one order"
    raise InputError(path, f"{where}, date", must, text, do)


def _put_kickoff(path: Path, where: str, given: dict[str, str], time: str) -> None:
    """Put the kick-off in its own form; its own column beats a time after the date."""
    column = given.pop("kickoff", "")
    column = UNTIL.sub("", column)
    # a cell without a digit tells no time: TBC, or what else people write there
    told = any(sign.isdigit() for sign in column) or clock(column) is not None
    text = column if told and not SCORE.search(column) else time
    # Spreadsheets write midnight after every date that has no time.
    if not text or (text == time and clock(time) == clock("0:00")):
        return
    kickoff = clock(text)
    if kickoff is None:
        raise InputError(
            path, f"{where}, kickoff", "must be a time such as 19:30", text, "write it so"
        )
    # a time after the date may be a moment of another zone
    given["kickoff"] = str(kickoff if text == time else in_the_afternoon(text, kickoff))


def in_the_afternoon(text: str, kickoff: dt.time) -> dt.time:
    """Return a kick-off; one at 1 to 6 that says neither am nor pm is in the afternoon."""
    plain = 1 <= kickoff.hour < EARLIEST
    return kickoff.replace(hour=kickoff.hour + 12) if plain and not HALF.search(text) else kickoff


def _check_amounts(path: Path, where: str, given: dict[str, str]) -> None:
    for name in AMOUNTS:
        if COMMA.fullmatch(given.get(name, "")):
            raise InputError(
                path,
                f"{where}, {name}",
                "decimals must be written with a point",
                given[name],
                f"write {given[name].replace(',', '.')}",
            )
