"""The sheet of a spreadsheet that has the matches, whatever library reads its kind."""

import io
from collections.abc import Callable, Iterable
from pathlib import Path
from zipfile import ZipFile

from cli.files.errors import InputError
from cli.files.fixtures_head import Row, names_dates
from cli.files.read_text import read_bytes

MOST_ROWS, MOST_COLUMNS = 2_000, 80
#: Most bytes a file may unpack to.
MOST_UNPACKED = 50_000_000


def first_with_dates(sheets: Iterable[list[Row]]) -> list[Row]:
    """Return the first sheet that has a column of dates, else the first."""
    read = []
    for rows in sheets:
        if names_dates(rows):
            return rows
        read.append(rows)
    return read[0] if read else []


def sheet_rows(
    path: Path, kind: str, suffix: str, read: Callable[[io.BytesIO], list[Row]]
) -> list[Row]:
    """Return the rows that ``read`` finds in a zipped file.

    Parameters
    ----------
    kind, suffix
        What the file is, in words and by the end of its name.

    Raises
    ------
    InputError
        If it is too large, or ``read`` fails in whatever way.
    """
    data = io.BytesIO(read_bytes(path))
    try:
        _check_size(data)
        return read(data)
    except Exception as error:  # the library lets whatever goes wrong inside it come out
        said = str(error) or type(error).__name__
        must, do = f"must be a {kind} ({suffix})", f"save it again as {suffix}, or as CSV"
        raise InputError(path, "", must, said, do) from None


def _check_size(data: io.BytesIO) -> None:
    unpacked = sum(part.file_size for part in ZipFile(data).infolist())
    if unpacked > MOST_UNPACKED:
        raise ValueError(f"one that unpacks to {unpacked // 1_000_000} MB")
