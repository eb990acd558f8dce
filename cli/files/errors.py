"""One error for everything that is wrong with a file."""

import re
from collections.abc import Sequence
from pathlib import Path
from typing import Any, Self

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from cli.files.known_keys import known_keys, nearest
from optimiser.domain.setup_error import SetupError

SENTENCE = re.compile(r"(?s)(?P<must>.*?) \(got (?P<got>.*)\)(?:; (?P<do>.*))?")
LONGEST = 120


class InputError(Exception):
    """A file that cannot be used.

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
        do = f" {self.do[0].upper()}{self.do[1:]}." if self.do else ""
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
        details = error.errors(include_url=False)
        first = details[0]
        location = path_words((*prefix, *first["loc"]))
        place = ", ".join(part for part in (where, location) if part)
        must, got, do = _told(first, model)
        if len(details) > 1:
            do = f"{do} ({len(details) - 1} more to correct after it)"
        return cls(file, place, must, got, do)


def path_words(path: Sequence[str | int]) -> str:
    """Return a path of keys as people write it: ``qualities.sprint.bands[2].code``."""
    words = ""
    for part in path:
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
    said = detail["msg"].removeprefix("Value error, ")
    sentence = SENTENCE.fullmatch(said)
    if sentence:
        return sentence["must"], sentence["got"], sentence["do"] or "correct it"
    return (
        said.replace("Input should be", "must be").replace("Input should", "must"),
        given,
        ("correct it"),
    )


def _unknown_key(detail: ErrorDetails, model: type[BaseModel]) -> tuple[str, str, str]:
    *path, key = detail["loc"]
    keys = known_keys(model, path)
    close = nearest(str(key), keys)
    do = f"did you mean {close}? otherwise take it out" if close else "take it out"
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
