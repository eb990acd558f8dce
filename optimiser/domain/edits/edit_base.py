"""What every edit can do: be made, and say what it does."""

from abc import abstractmethod

from optimiser.domain.edits.work import Telling, Work
from optimiser.domain.strict import Strict


class EditBase(Strict):
    """One edit of a season; its file holds its name, how it is made and how it is told."""

    @abstractmethod
    def make(self, work: Work) -> None:
        """Make it.

        Raises
        ------
        EditError
            If it cannot be made.
        """

    @abstractmethod
    def told(self, telling: Telling) -> str:
        """Return what it does."""
