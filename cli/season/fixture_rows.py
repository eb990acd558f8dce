"""Changed fixtures written into a CSV list: its other rows, columns and comments stay."""

import codecs
import csv
import datetime as dt
import io
from collections.abc import Sequence
from pathlib import Path

from cli.files.fixtures_columns import TITLE_ROWS, best_separator, column_of, has_date
from cli.files.fixtures_csv import find_fixtures_csv
from cli.files.fixtures_dates import split_cell
from cli.files.fixtures_found import ListFacts
from cli.files.safe_cell import safe_cell
from optimiser.domain.fixture import Fixture

Pair = tuple[Fixture | None, Fixture | None]
#: Ways to write a date, tried in turn until one reads the date that stands there.
FORMS = (
    "%Y-%m-%d", "%d/%m/%Y", "%m/%d/%Y", "%d.%m.%Y", "%d-%m-%Y", "%d/%m/%y", "%m/%d/%y", "%d.%m.%y",
    "%d %b %Y", "%d %B %Y", "%d-%b-%Y", "%d-%b-%y", "%d %b %y",
    "%Y/%m/%d", "%Y.%m.%d", "%Y%m%d", "%B %d, %Y", "%b %d, %Y",
)  # fmt: skip
#: What a list may say of a fixture; the date and the kick-off have forms of their own.
FIELDS = ("opponent", "competition", "venue", "priority", "minutes", "travel_hours")


class FixtureTable:
    """A fixture list in CSV whose rows can be changed one by one.

    Parameters
    ----------
    path
        The file; it is read for where each fixture stands.
    """

    def __init__(self, path: Path) -> None:
        self._encoding, self.text = _decoded(path.read_bytes())
        self._marked = self.text.startswith("\ufeff")
        lines = self.text.removeprefix("\ufeff").splitlines(keepends=True)
        self._separator = best_separator(lines)
        self._ending = "\r\n" if "\r\n" in self.text else "\n"
        self._rows = _rows(lines, self._separator)
        head = next(n for n, (_, cells) in enumerate(self._rows[:TITLE_ROWS]) if has_date(cells))
        self.columns = [column_of(name) for name in self._rows[head][1]]
        at = {f"line {line}": n for n, (line, _, _) in enumerate(_starts(self._rows))}
        listed = find_fixtures_csv(path, ListFacts()).listed
        # matches of one day are one fixture of the season, in rows of their own
        self._places: dict[dt.date, list[int]] = {}
        for item in listed:
            self._places.setdefault(item.fixture.date, []).append(at[item.where])
        self._new: list[str] = []

    def __contains__(self, day: dt.date) -> bool:
        return day in self._places

    def change(self, was: Fixture, now: Fixture) -> None:
        """Write what is different about a fixture into its row, or into all of that day."""
        places, alone = self._places.pop(was.date), "kickoff" in self.columns
        for place in places:
            cells = list(self._rows[place][1])
            for column, name in enumerate(self.columns):
                if name and column < len(cells) and _differs(name, was, now, alone=alone):
                    cells[column] = self._cell(name, now, cells[column], was.date)
            self._rows[place] = (self._line(cells), cells)
        self._places[now.date] = places

    def drop(self, was: Fixture) -> None:
        """Take the row of a fixture out, or all of that day."""
        for place in self._places.pop(was.date):
            self._rows[place] = ("", [])

    def add(self, now: Fixture) -> None:
        """Add a row at the end, written as the last one is."""
        known = max(self._places, default=None)
        like = list(self._rows[self._places[known][-1]][1]) if known else []
        cells = []
        for column, name in enumerate(self.columns):
            pattern = like[column] if column < len(like) else ""
            cells.append(self._cell(name, now, pattern, known) if name else "")
        self._new.append(self._line(cells))

    def made(self) -> bytes:
        """Return the file as it is after all changes."""
        text = "".join(raw for raw, _ in self._rows)
        if text and not text.endswith("\n"):
            text += self._ending
        mark = "\ufeff" if self._marked else ""
        return (mark + text + "".join(self._new)).encode(self._encoding)

    def _cell(self, name: str, fixture: Fixture, pattern: str, day: dt.date | None) -> str:
        if name == "date":
            return _date(fixture, pattern, day, alone="kickoff" in self.columns)
        if name == "kickoff":
            return "" if fixture.kickoff is None else f"{fixture.kickoff:%H:%M}"
        if name not in FIELDS:
            return ""
        value = getattr(fixture, name)
        if value in (None, "", 0.0):
            return ""
        return f"{value:g}" if isinstance(value, float) else str(safe_cell(str(value)))

    def _line(self, cells: Sequence[str]) -> str:
        out = io.StringIO()
        csv.writer(out, delimiter=self._separator, lineterminator=self._ending).writerow(cells)
        return out.getvalue()


def _decoded(data: bytes) -> tuple[str, str]:
    """Return the encoding of a list and its text."""
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return "utf-16", data.decode("utf-16")
    try:
        return "utf-8", data.decode("utf-8")
    except UnicodeDecodeError:
        return "cp1252", data.decode("cp1252")


def _differs(name: str, was: Fixture, now: Fixture, *, alone: bool) -> bool:
    """Tell whether a column has to change; the time may stand beside the date."""
    if name == "date":
        return was.date != now.date or (not alone and was.kickoff != now.kickoff)
    return name in (*FIELDS, "kickoff") and getattr(was, name) != getattr(now, name)


def _date(fixture: Fixture, pattern: str, day: dt.date | None, *, alone: bool) -> str:
    """Return a date, and the time where it stands beside it, in the form that stands there."""
    given, time = split_cell(pattern)
    form = next((form for form in FORMS if day and _says(given, form, day)), FORMS[0])
    told = fixture.date.strftime(form)
    with_time = bool(time) and not alone and fixture.kickoff is not None
    return f"{told} {fixture.kickoff:%H:%M}" if with_time else told


def _says(text: str, form: str, day: dt.date) -> bool:
    try:
        return dt.datetime.strptime(text, form).date() == day
    except ValueError:
        return False


def _rows(lines: Sequence[str], separator: str) -> list[tuple[str, list[str]]]:
    """Return each row as it stands, line ends and all, and its cells."""
    reader, found, at = csv.reader(lines, delimiter=separator, strict=True), [], 0
    for cells in reader:
        found.append(("".join(lines[at : reader.line_num]), cells))
        at = reader.line_num
    return found


def _starts(rows: Sequence[tuple[str, list[str]]]) -> list[tuple[int, str, list[str]]]:
    """Return each row with the line (from 1) it starts on."""
    found, line = [], 1
    for raw, cells in rows:
        found.append((line, raw, cells))
        line += max(1, len(raw.splitlines()))
    return found
