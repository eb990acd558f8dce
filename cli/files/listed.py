"""A fixture and the place in its file it came from."""

from dataclasses import dataclass

from optimiser.domain.fixture import Fixture


@dataclass(frozen=True)
class Listed:
    """One fixture of a file.

    Parameters
    ----------
    fixture
        What was read.
    where
        ``line 3`` or ``event 3``.
    """

    fixture: Fixture
    where: str
