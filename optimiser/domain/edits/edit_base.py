"""What every edit can do: be made, and say what it does."""

from abc import abstractmethod
from collections.abc import Iterable

from optimiser.domain.edits.work import ScenarioDraft, Telling
from optimiser.domain.season import Season
from optimiser.domain.strict import Strict


class EditBase(Strict):
    """One edit of a season; its file holds its name, how it is made, told and asked about."""

    @abstractmethod
    def make(self, work: ScenarioDraft) -> None:
        """Make it.

        Raises
        ------
        EditError
            If it cannot be made.
        """

    @abstractmethod
    def told(self, telling: Telling) -> str:
        """Return what it does."""

    def doubts(self, before: Season, after: Season) -> Iterable[str]:
        """Return what to ask first, as it may be a slip: dates in it are written as in files.

        Parameters
        ----------
        before, after
            The season as it was and as all edits made with this one make it.
        """
        return ()
