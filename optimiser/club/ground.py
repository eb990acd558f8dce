"""What of a club is shared in a week, and how many minutes of it plans take."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from optimiser.athlete.standing_week import WARM_UP
from optimiser.club.squad_season import SquadSeason
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Place
from optimiser.joint_model.ground_minutes import GroundMinutes

#: Where hours cost nothing and are not counted out.
FREE = GroundMinutes(WARM_UP)


@dataclass(frozen=True)
class Claim:
    """A squad that uses something shared in one week.

    Parameters
    ----------
    squad
        By number.
    week
        Of its own season, from 0.
    places
        The work that takes place there.
    fixed
        Minutes that it takes whatever its plan is: team practice.
    """

    squad: int
    week: int
    places: frozenset[Place]
    fixed: int = 0


@dataclass(frozen=True)
class Ground:
    """A room, pitch, thing or person in one week.

    Parameters
    ----------
    pool
        By number.
    minutes
        For which it can be taken, one squad's minute counted as one.
    """

    pool: int
    monday: dt.date
    minutes: int
    claims: tuple[Claim, ...]

    @property
    def left(self) -> int:
        """Return the minutes that team practice leaves."""
        return max(0, self.minutes - sum(claim.fixed for claim in self.claims))

    def claim(self, squad: int) -> Claim | None:
        """Return what a squad uses of it, if it does."""
        return next((each for each in self.claims if each.squad == squad), None)

    def chosen_by(self, squad: int) -> bool:
        """Tell whether the plan of a squad decides how much of it is used."""
        claim = self.claim(squad)
        return claim is not None and bool(claim.places)

    def of(self, squads: Sequence[SquadSeason], plans: Sequence[Plan], squad: int) -> int:
        """Return the minutes that a squad's plan takes of it, practice aside."""
        claim = self.claim(squad)
        if claim is None:
            return 0
        season, plan = squads[squad].season, plans[squad]
        return sum(FREE.minutes(season, plan, place, claim.week) for place in claim.places)

    def taken(self, squads: Sequence[SquadSeason], plans: Sequence[Plan]) -> int:
        """Return the minutes that all plans take of it, practice aside."""
        return sum(self.of(squads, plans, claim.squad) for claim in self.claims)

    def over(self, squads: Sequence[SquadSeason], plans: Sequence[Plan]) -> int:
        """Return the minutes by which plans ask more of it than there are."""
        return max(0, self.taken(squads, plans) - self.left)
