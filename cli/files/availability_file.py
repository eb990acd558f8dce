"""Read who may train on which day from a CSV file.

The first line names the columns, in any order.

athlete, from, status
    Must be there. Status is out (no work), limited (a stage of the way back), available, or away
    (elsewhere, not hurt). An entry stands until the next one of the same athlete; only away ends
    by itself, on its day ``to``.
to
    Last day it is meant for.
stage
    1 to 5, of a limited athlete, who is available again after 5: entered by the medical team, never
    moved on by the program.
limits
    Contraindications of the library, separated by semicolons: ``hamstring; impact``. Anything else
    is printed as the medical team's words.
words
    What the medical team says, printed as it stands.
"""

from collections.abc import Collection
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from cli.files.dated_rows import DatedRow, dated_rows
from cli.files.errors import InputError
from cli.files.known_keys import nearest
from optimiser.athlete.availability import Availability, AvailabilityEntry, Status

NEEDED = ("athlete", "from", "status")
COLUMNS = (*NEEDED, "to", "stage", "limits", "words")
#: Looked for beside the squad file.
USUAL = "availability.csv"


def read_availability(path: Path, names: Collection[str], tags: Collection[str]) -> Availability:
    """Return the entries of ``path``.

    Parameters
    ----------
    names
        Athletes of the squad.
    tags
        Contraindications that limits may name.

    Raises
    ------
    InputError
        With line and column, if anything in it cannot be used.
    """
    entries: list[AvailabilityEntry] = []
    seen: dict[tuple[str, Any, bool], str] = {}
    for row in dated_rows(path, NEEDED, COLUMNS):
        entry = _entry(row, names, tags)
        key = (entry.athlete, entry.first, entry.status is Status.AWAY)
        if key in seen:
            raise row.error(
                "from",
                f"an athlete must have one entry a day (the other is in {seen[key]})",
                "take one out, or give it its own day",
            )
        seen[key] = row.where
        entries.append(entry)
    return Availability(entries=tuple(entries))


def _entry(row: DatedRow, names: Collection[str], tags: Collection[str]) -> AvailabilityEntry:
    limits, words = _limits(row, tags)
    fields = {
        "athlete": row.athlete(names),
        "first": row.date("from"),
        "last": row.date("to") if "to" in row.cells else None,
        "status": _status(row),
        "stage": _stage(row),
        "tags": limits,
        "words": "; ".join(filter(None, [*words, row.cells.get("words", "")])),
    }
    try:
        return AvailabilityEntry.model_validate(fields)
    except ValidationError as error:
        told = InputError.from_pydantic(row.path, error, AvailabilityEntry)
        raise InputError(row.path, row.where, told.must, told.got, told.do) from None


def _status(row: DatedRow) -> str:
    given, usual = row.need("status").lower(), [status.value for status in Status]
    if given not in usual:
        close = nearest(given, usual)
        do = f"did you mean {close}?" if close else "write one of them"
        raise row.error("status", f"must be one of {', '.join(usual)}", do)
    return given


def _stage(row: DatedRow) -> int | None:
    given = row.cells.get("stage", "")
    if not given:
        return None
    if given not in tuple("0123456"):
        raise row.error("stage", "must be a whole number from 0 to 6", "ask the medical team")
    return int(given)


def _limits(row: DatedRow, tags: Collection[str]) -> tuple[tuple[str, ...], list[str]]:
    """Return the contraindications and the words among the limits."""
    parts = [part.strip() for part in row.cells.get("limits", "").split(";") if part.strip()]
    found, words = [], []
    for part in parts:
        if part.lower() in tags:
            found.append(part.lower())
        elif " " not in part and nearest(part.lower(), tags):
            close = nearest(part.lower(), tags)
            raise row.error("limits", "must name what the library knows", f"did you mean {close}?")
        else:
            words.append(part)
    return tuple(found), words
