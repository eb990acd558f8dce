"""Sheets of heart-rate and RPE programs as records: their columns are named once and remembered."""

import csv
import datetime as dt
import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from cli.files.errors import InputError
from cli.files.known_keys import nearest
from cli.files.read_text import read_any_text
from cli.season.done_csv import COLUMNS, Row, sessions_of
from cli.season.folder import Folder
from cli.season.history import opened
from cli.season.whole_sessions import PART_OF
from optimiser.domain.season import Season
from optimiser.progress.done_session import DoneSession

NOTE = "done.columns"


@dataclass(frozen=True)
class SheetWords:
    """How a sheet speaks.

    Parameters
    ----------
    columns
        Headings of the sheet by the column they stand for.
    words
        What is done, by the word the sheet has for it.
    what
        What every row is, where the sheet does not say.
    """

    columns: Mapping[str, str] = field(default_factory=dict)
    words: Mapping[str, str] = field(default_factory=dict)
    what: str = ""

    def over(self, other: "SheetWords") -> "SheetWords":
        """Return ``other`` with what this one says put over it."""
        return SheetWords(
            {**other.columns, **self.columns},
            {**other.words, **self.words},
            self.what or other.what,
        )


def remembered(folder: Folder) -> SheetWords:
    """Return how the last sheet spoke."""
    with opened(folder.history) as history:
        told = history.note(NOTE)
    given = json.loads(told) if told else {}
    return SheetWords(given.get("columns", {}), given.get("words", {}), given.get("what", ""))


def remember(folder: Folder, mapping: SheetWords) -> None:
    """Keep how a sheet speaks for the next one."""
    told = {"columns": mapping.columns, "words": mapping.words, "what": mapping.what}
    with opened(folder.history) as history:
        history.put_note(NOTE, json.dumps(told))


def read_sheet(path: Path, mapping: SheetWords, season: Season, last: dt.date) -> list[DoneSession]:
    """Return the records of a sheet.

    Raises
    ------
    InputError
        If a column that is needed is not named, or a cell cannot be used.
    """
    rows = _rows(path, mapping)
    try:
        return sessions_of(path, rows, season, last, whole=True)
    except InputError as error:
        if not error.where.endswith(", what"):
            raise
        do = f'say what that stands for, as in --word "{error.got}=practice"'
        raise InputError(path, error.where, error.must, error.got, do) from None


def new_ones(found: Sequence[DoneSession], there: Sequence[DoneSession]) -> list[DoneSession]:
    """Return the records that are not there yet, so that a sheet may be read in twice."""
    known = {_key(each) for each in there}
    return [each for each in found if _key(each) not in known]


def _key(session: DoneSession) -> str:
    if session.note.startswith(PART_OF):
        # parts follow from the plan of that week, their session does not
        return f"{session.date} {session.who.casefold()} {session.what} {session.note}"
    told = session.model_copy(update={"note": "", "who": session.who.casefold()})
    return told.model_dump_json()


def _rows(path: Path, mapping: SheetWords) -> list[Row]:
    lines = read_any_text(path).splitlines(keepends=True)
    separator = max((",", ";", "\t"), key=(lines[0] if lines else "").count)
    reader = csv.reader(lines, delimiter=separator, strict=True)
    try:
        read = [(f"line {reader.line_num}", row) for row in reader if any(row)]
    except csv.Error as error:
        do = "save it again as CSV"
        raise InputError(path, "", "must be a CSV table", str(error), do) from None
    head, *table = read or [("line 1", [])]
    at = _places(path, [name.strip() for name in head[1]], mapping)
    words = {word.casefold(): what for word, what in mapping.words.items()}
    rows = []
    for where, row in table:
        cells = {name: row[n].strip() for name, n in at.items() if n < len(row) and row[n].strip()}
        what = cells.get("what", mapping.what)
        if cells:
            rows.append((where, {**cells, "what": words.get(what.casefold(), what)}))
    return rows


def _places(path: Path, head: Sequence[str], mapping: SheetWords) -> dict[str, int]:
    """Return where each of our columns stands in the sheet."""
    known = {name.casefold(): number for number, name in enumerate(head)}
    found = {name: known[name] for name in COLUMNS if name in known}
    for column, heading in mapping.columns.items():
        if heading.casefold() not in known:
            close = nearest(heading, head)
            do = f"did you mean {close}?" if close else f"columns: {', '.join(head)}"
            raise InputError(path, "line 1", f"must have the column {heading}", "none", do)
        found[column] = known[heading.casefold()]
    missing = "date" if "date" not in found else "what"
    if missing == "date" or ("what" not in found and not mapping.what):
        do = f"name it, as in --map {missing}=HEADING"
        do += ", or say --what practice for all rows" if missing == "what" else ""
        told = {"date": "is the date", "what": "says what was done"}[missing]
        must = f"must have a column that {told}"
        raise InputError(path, "line 1", must, ", ".join(head) or "no columns", do)
    return found
