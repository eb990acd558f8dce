"""What was done, week by week, from a CSV table."""

import csv
from collections.abc import Iterator, Sequence
from pathlib import Path

from cli.files.errors import InputError
from cli.files.known_keys import nearest
from cli.files.read_text import read_text
from optimiser.domain.quality import Dose, Quality, dose_of
from optimiser.domain.season import Season
from optimiser.replan.log import Done

NEEDED = ("week", "quality", "dose")
COLUMNS = (*NEEDED, "band", "load_au")
PASSED_OVER = ("note", "notes")
#: What a person may write for a session that did not take place.
MISSED = "missed"
MOST_LOAD = 5000


def read_log(path: Path, season: Season) -> list[Done]:
    """Return the rows of the log in ``path``.

    The first line names the columns, separated by commas or semicolons: week, quality and dose
    must be there; band (code, or rung from 1) and load_au may be. Dose ``missed`` is ``none``.

    Raises
    ------
    InputError
        With the line, if a cell cannot be used.
    """
    lines = read_text(path).splitlines(keepends=True)
    semicolons = bool(lines) and ";" in lines[0] and "," not in lines[0]
    rows = csv.reader(lines, delimiter=";" if semicolons else ",", strict=True)
    try:
        return list(_rows(path, rows, season))
    except csv.Error as error:
        raise InputError(
            path, "", "must be a CSV table", str(error), "save it again from the spreadsheet as CSV"
        ) from None


def _rows(path: Path, rows: "csv._reader", season: Season) -> Iterator[Done]:  # type: ignore[name-defined]
    columns = _columns(path, next(rows, []))
    line = rows.line_num + 1
    for row in rows:
        cells = {
            name: cell.strip()
            for name, cell in zip(columns, row, strict=False)
            if cell.strip()
        }
        if cells:
            yield _Row(path, f"line {line}", cells, season).read()
        line = rows.line_num + 1


def _columns(path: Path, header: Sequence[str]) -> list[str]:
    names = [name.strip().lower() for name in header]
    while names and not names[-1]:
        names.pop()
    wrong = [name for name in names if name not in (*COLUMNS, *PASSED_OVER)]
    if wrong:
        close = nearest(wrong[0], COLUMNS)
        do = f"did you mean {close}?" if close else "take the column out"
        must = f"columns must be among {', '.join(COLUMNS)}"
        raise InputError(path, "line 1", must, f'"{wrong[0]}"', do)
    twice = [name for name in names if names.count(name) > 1]
    if twice:
        raise InputError(path, "line 1", "a column must come once", f"{twice[0]} twice", "drop one")
    missing = [name for name in NEEDED if name not in names]
    if missing:
        must = f"the first line must name the columns, {', '.join(NEEDED)} among them"
        raise InputError(path, "line 1", must, f"no {missing[0]}", "add the column")
    return names


class _Row:
    """One row on its way to what was done."""

    def __init__(self, path: Path, where: str, cells: dict[str, str], season: Season) -> None:
        self.path, self.where, self.cells, self.season = path, where, cells, season

    def read(self) -> Done:
        week = self._whole("week", 1, len(self.season.weeks)) - 1
        quality = self._quality()
        return Done(
            where=self.where,
            week=week,
            quality=quality,
            dose=self._dose(),
            rung=self._rung(self.season.qualities[quality]),
            load=self._whole("load_au", 0, MOST_LOAD) if "load_au" in self.cells else None,
        )

    def _refuse(self, column: str, must: str, do: str = "correct it") -> InputError:
        got = self.cells.get(column, "an empty cell")
        return InputError(self.path, f"{self.where}, {column}", must, got, do)

    def _whole(self, column: str, low: int, high: int) -> int:
        text = self.cells.get(column, "")
        if not (text.isascii() and text.isdigit() and len(text) < 6 and low <= int(text) <= high):
            raise self._refuse(column, f"must be a whole number from {low} to {high}")
        return int(text)

    def _quality(self) -> int:
        given = self.cells.get("quality", "").lower()
        names = {
            word.lower(): index
            for index, quality in enumerate(self.season.qualities)
            for word in (quality.key, quality.name)
        }
        if given not in names:
            close = nearest(given, self.season.keys) if given else None
            do = f"did you mean {close}?" if close else "correct it"
            raise self._refuse("quality", f"must be one of {', '.join(self.season.keys)}", do)
        return names[given]

    def _dose(self) -> Dose:
        given = self.cells.get("dose", "").lower()
        try:
            return Dose.NONE if given == MISSED else dose_of(given)
        except ValueError:
            raise self._refuse("dose", "must be none, touch, reduced, full or missed") from None

    def _rung(self, quality: Quality) -> int | None:
        if "band" not in self.cells:
            return None
        given = self.cells["band"]
        codes = [band.code.lower() for band in quality.bands]
        if given.lower() in codes:
            return codes.index(given.lower())
        if given in [str(rung) for rung in range(1, len(codes) + 1)]:
            return int(given) - 1
        listed = ", ".join(band.code for band in quality.bands)
        raise self._refuse("band", f"must be one of {listed} or 1 to {len(codes)}")
