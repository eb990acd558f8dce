"""How long a club's seasons may be searched."""

import time
from dataclasses import dataclass, field, replace

from optimiser.club.squad_season import SquadSeason


class TimeUpError(Exception):
    """The time that was given is over."""


@dataclass(frozen=True)
class Patience:
    """A wall-clock limit of all that is searched for a club.

    Parameters
    ----------
    seconds
        From now on; None for the fixed effort alone.
    """

    seconds: float | None = None
    began: float = field(default_factory=time.perf_counter)

    @property
    def spent(self) -> float:
        """Return the seconds that have passed."""
        return time.perf_counter() - self.began

    def check(self) -> None:
        """Go on only while there is time.

        Raises
        ------
        TimeUpError
            If there is none.
        """
        if self.seconds is not None and self.spent >= self.seconds:
            raise TimeUpError

    def squad(self, squad: SquadSeason) -> SquadSeason:
        """Return a squad whose season is searched no longer than there is time.

        Raises
        ------
        TimeUpError
            If there is none.
        """
        self.check()
        if self.seconds is None:
            return squad
        left = min(squad.settings.seconds, self.seconds - self.spent)
        return replace(squad, settings=replace(squad.settings, seconds=left))


#: The fixed effort ends the search.
PATIENT = Patience()
