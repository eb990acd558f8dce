"""One cell of a squad file, and what it may mean."""

import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from cli.files.errors import InputError
from cli.files.known_keys import nearest
from optimiser.athlete.squad import Group

YES, NO = ("yes", "y", "true", "1"), ("no", "n", "false", "0")
NUMBER = re.compile(r"[+-]?(\d+(\.\d*)?|\.\d+)")
COMMA = re.compile(r"[+-]?\d+,\d+")
DATE = re.compile(r"\d{4}-\d{2}-\d{2}")
RESTRICTION = re.compile(
    r"(?P<tag>\S+)(\s+(?P<first>\d{4}-\d{2}-\d{2})?/(?P<last>\d{4}-\d{2}-\d{2})?)?"
)


@dataclass(frozen=True)
class Cell:
    """A cell that is not empty.

    Parameters
    ----------
    path
        The file.
    where
        Line and column.
    text
        What stands in it, without blanks around.
    """

    path: Path
    where: str
    text: str

    def number(self) -> float:
        """Return it as a number; raise InputError if it is none."""
        if COMMA.fullmatch(self.text):
            right = self.text.replace(",", ".")
            raise self.error("decimals must be written with a point", f"write {right}")
        if not NUMBER.fullmatch(self.text) or len(self.text) > 20:
            raise self.error("must be a number without a unit", "correct it")
        return float(self.text)

    def yes(self) -> bool:
        """Return True for yes, False for no; raise InputError for anything else."""
        if self.text.lower() not in YES + NO:
            raise self.error("must be yes or no", "write one of them")
        return self.text.lower() in YES

    def date(self) -> str:
        """Return it if it looks like a date; raise InputError if not."""
        if not DATE.fullmatch(self.text):
            raise self.error("must be year-month-day such as 2026-09-05", "write it so")
        return self.text

    def group(self) -> str:
        """Return it as a group; raise InputError if there is none such."""
        groups = [group.value for group in Group]
        wanted = re.sub(r"[\s_]+", "-", self.text.lower())
        if wanted not in groups:
            raise self.error(f"must be one of {', '.join(groups)}", did_you_mean(wanted, groups))
        return wanted

    def restrictions(self, tags: Collection[str]) -> Iterator[dict[str, Any]]:
        """Yield the fields of each restriction; raise InputError at one that cannot be read."""
        for part in filter(None, (part.strip() for part in self.text.split(";"))):
            found = RESTRICTION.fullmatch(part)
            if not found:
                raise self.error(
                    "must be a restriction, alone or with dates: knee 2026-08-01/2026-09-15",
                    "write it so; part several with semicolons",
                )
            tag = found["tag"].lower()
            if tag not in tags:
                known = ", ".join(sorted(tags))
                raise self.error(f"a restriction must be one of {known}", did_you_mean(tag, tags))
            yield {**found.groupdict(), "tag": tag}

    def error(self, must: str, do: str) -> InputError:
        """Return the error of this cell."""
        return InputError(self.path, self.where, must, f'"{self.text}"', do)


def did_you_mean(word: str, words: Collection[str]) -> str:
    """Return a question with the nearest of ``words``, or plain advice."""
    close = nearest(word, words)
    return f"did you mean {close}?" if close else "write one of them"
