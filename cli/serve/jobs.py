"""What the searching process is asked to do, and what it tells."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol


@dataclass(frozen=True)
class Told:
    """How far a job is, in words."""

    words: str


@dataclass(frozen=True)
class Sooner:
    """Something that can be shown before a job is done."""

    found: object


@dataclass(frozen=True)
class Done:
    """What a job came to."""

    found: object


@dataclass(frozen=True)
class Failed:
    """A job that ended by a mistake of the program, or with its process."""

    words: str


News = Told | Sooner
Tell = Callable[[News], None]


class PageJob(Protocol):
    """Something that takes long."""

    def run(self, tell: Tell) -> object:
        """Do it, in the searching process, and return what it came to."""
