"""Rows on disk as they come: one line of JSON each, beside the results that are to be written."""

import os
from pathlib import Path
from typing import Self

from pydantic import ValidationError

from cli.files.errors import InputError
from optimiser.batch.row import BatchRow, Result

ENDING = ".rows.jsonl"


class RowLog:
    """The rows of a batch, safe against a run that breaks off.

    Parameters
    ----------
    out
        Where the finished results go; the rows stand beside it.
    """

    def __init__(self, out: Path) -> None:
        self.path = out.with_name(f"{out.stem}{ENDING}")

    def known(self) -> dict[str, Result]:
        """Return the results of an earlier run by key; a line that was cut off is dropped.

        Raises
        ------
        InputError
            If there are none, or a line is not one of ours.
        """
        if not self.path.exists():
            return {}
        try:
            data = self.path.read_bytes()
        except OSError as error:
            raise InputError.from_os(self.path, error) from None
        whole = data[: data.rfind(b"\n") + 1]
        if whole != data:
            os.truncate(self.path, len(whole))
        rows = [self._row(number, line) for number, line in enumerate(whole.splitlines(), 1)]
        fields = set(Result.model_fields)
        return {row.key: Result(**row.model_dump(include=fields)) for row in rows if row.key}

    def start(self, *, resume: bool, force: bool) -> None:
        """Open the file, empty or, to ``resume``, as it is.

        Raises
        ------
        InputError
            If rows of an earlier run would be lost.
        """
        if self.path.exists() and not (resume or force):
            raise InputError(
                self.path,
                "",
                "must not be there yet",
                "rows of an earlier batch",
                "add --resume to go on with them, or --force to begin again",
            )
        try:
            self._file = self.path.open("ab" if resume else "wb")
        except OSError as error:
            raise InputError.from_os(self.path, error) from None

    def add(self, row: BatchRow) -> None:
        """Write a row so that it is still there if the power fails."""
        self._file.write(f"{row.model_dump_json()}\n".encode())
        self._file.flush()
        os.fsync(self._file.fileno())

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self._file.close()

    def _row(self, number: int, line: bytes) -> BatchRow:
        try:
            return BatchRow.model_validate_json(line)
        except ValidationError:
            raise InputError(
                self.path,
                f"line {number}",
                "must be a row of a batch",
                line[:60].decode("utf-8", "replace"),
                "take the line out, or leave --resume out and add --force",
            ) from None
