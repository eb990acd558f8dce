"""One error for everything that is wrong with a file."""

import csv
import re
from collections.abc import Sequence
from pathlib import Path
from typing import Any, Self

import click
from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from cli.files.known_keys import known_keys, nearest
from optimiser.domain.setup_error import SetupError

SENTENCE = re.compile(r"(?s)(?P<must>.*?) \(got (?P<got>.*)\)(?:; (?P<do>.*))?")
LONGEST = 120
A_DATE = "must be a date such as 2026-09-05"
A_TIME = 'must be a time such as "19:30"'
A_NUMBER = "must be a number"
A_WHOLE_NUMBER = "must be a whole number"
PLAIN = {
    "date_type": A_DATE,
    "date_parsing": A_DATE,
    "date_from_datetime_parsing": A_DATE,
    "date_from_datetime_inexact": A_DATE,
    "time_type": A_TIME,
    "time_parsing": A_TIME,
    "int_type": A_WHOLE_NUMBER,
    "int_parsing": A_WHOLE_NUMBER,
    "int_parsing_size": A_WHOLE_NUMBER,
    "int_from_float": A_WHOLE_NUMBER,
    "float_type": A_NUMBER,
    "float_parsing": A_NUMBER,
    "finite_number": A_NUMBER,
    "string_type": "must be text in double quotes",
    "dict_type": "must be a table",
    "model_type": "must be a table",
    "tuple_type": "must be a list",
    "list_type": "must be a list",
}


#: Words of pydantic, and plainer ones.
PLAINER = {
    "Input should": "must",
    "String should": "must",
    "be less than or equal to": "be at most",
    "be greater than or equal to": "be at least",
}


class InputError(click.ClickException):
    """A file that cannot be used; at the command line it is shown and the exit code is 1.

    Parameters
    ----------
    file
        The file as the person named it.
    where
        Field, line or date; empty if it is the file as a whole.
    must
        What must hold.
    got
        What came instead.
    do
        What puts it right.
    """

    def __init__(self, file: Path | str, where: str, must: str, got: str, do: str) -> None:
        self.file, self.where = str(file), where
        self.must, self.got, self.do = must, got, do
        super().__init__(self.paragraph())

    def paragraph(self) -> str:
        """Return the whole of it as one paragraph."""
        place = f"{self.file}, {self.where}" if self.where else self.file
        got = f" (got {shortened(self.got)})" if self.got else ""
        do = f" {self.do[0].upper()}{self.do[1:]}" if self.do else ""
        do += "." if do and do[-1] not in ".?" else ""
        return " ".join(f"{place}: {self.must}{got}.{do}".split())

    @classmethod
    def from_setup(cls, file: Path | str, error: SetupError, where: str = "") -> Self:
        """Return ``error`` as an error of ``file``, at ``where`` if that says it better."""
        return cls(file, where or error.where, error.must, error.got, error.do)

    @classmethod
    def from_os(cls, file: Path | str, error: OSError) -> Self:
        """Return what the operating system said about ``file``."""
        said = (error.strerror or str(error)).lower()
        return cls(file, "", "must be a file that can be read and written", said, "check its name")

    @classmethod
    def from_csv(cls, file: Path, error: csv.Error) -> Self:
        """Return why ``file`` is no CSV table."""
        do = "save it again from the spreadsheet as CSV"
        return cls(file, "", "must be a CSV table", str(error), do)

    @classmethod
    def from_pydantic(
        cls,
        file: Path | str,
        error: ValidationError,
        model: type[BaseModel],
        prefix: Sequence[str | int] = (),
        where: str = "",
    ) -> Self:
        """Return the first thing ``model`` refused.

        Parameters
        ----------
        prefix
            Path of keys to the data that was checked.
        where
            Replaces the path of keys, for files that have lines instead.
        """
        first = first_refused(error)
        location = path_words((*prefix, *first["loc"]))
        place = ", ".join(part for part in (where, location) if part)
        must, got, do = _told(first, model)
        return cls(file, place, must, got, do)


def first_refused(error: ValidationError) -> ErrorDetails:
    """Return the one to tell: a wrong key before what its absence made missing."""
    details = error.errors(include_url=False)
    return next((item for item in details if item["type"] == "extra_forbidden"), details[0])


def path_words(path: Sequence[str | int]) -> str:
    """Return a path of keys as people write it: ``qualities.sprint.bands[2].code``."""
    words = ""
    for part in path:
        if part == "[key]":  # a table's own name was refused
            continue
        words += f"[{part + 1}]" if isinstance(part, int) else f".{part}"
    return words.removeprefix(".")


def shortened(text: str) -> str:
    """Return ``text`` cut to a length that fits a message, without signs that upset a terminal."""
    clean = "".join(sign if sign.isprintable() else " " for sign in text)
    return clean if len(clean) <= LONGEST else f"{clean[: LONGEST - 3]}..."


def _told(detail: ErrorDetails, model: type[BaseModel]) -> tuple[str, str, str]:
    kind, given = detail["type"], shown(detail["input"])
    if kind == "extra_forbidden":
        return _unknown_key(detail, model)
    if kind == "missing":
        return "must be given", "nothing", "add it"
    if kind in PLAIN:
        return PLAIN[kind], given, "correct it"
    if kind in ("too_short", "too_long"):
        return _length(detail), given, "add some" if kind == "too_short" else "take some out"
    said = detail["msg"].removeprefix("Value error, ")
    sentence = SENTENCE.fullmatch(said)
    if sentence:
        return sentence["must"], sentence["got"], sentence["do"] or "correct it"
    return plain_must(said), given, "correct it"


def plain_must(said: str) -> str:
    """Return what pydantic says of a value as a person would: what it must be."""
    for words, plain in PLAINER.items():
        said = said.replace(words, plain)
    return said


def _length(detail: ErrorDetails) -> str:
    limits = detail.get("ctx", {})
    least, most = limits.get("min_length"), limits.get("max_length")
    return f"must have at least {least} entries" if least else f"must have at most {most} entries"


def _unknown_key(detail: ErrorDetails, model: type[BaseModel]) -> tuple[str, str, str]:
    *path, key = detail["loc"]
    keys = known_keys(model, path)
    close = nearest(str(key), keys)
    do = f"did you mean {close}? Otherwise take it out" if close else "take it out"
    listed = f"; known here: {', '.join(sorted(keys))}" if keys and not close else ""
    return "is not a key that is known", str(key), do + listed


def shown(value: Any) -> str:
    """Return a value of a file as a person would write it."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, (list, tuple)):
        return f"a list of {len(value)}"
    return f'"{value}"' if isinstance(value, str) else str(value)
