"""The plans of all squads while they are made to fit: who gives way, by how much, and what then."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from typing import NamedTuple

from optimiser.club.ground import FREE, Ground
from optimiser.club.relaxed_prices import DEAREST
from optimiser.club.squad_season import SquadSeason, best_plan, cost_of
from optimiser.club.time_limit import Patience
from optimiser.domain.plan import Plan
from optimiser.joint_model.ground_minutes import GroundMinutes, Spots


class Unfit(NamedTuple):
    """A squad that has no whole timetable in a week, though alone it would.

    Parameters
    ----------
    squad, ground
        By number.
    minutes
        Of the ground that it is to do without.
    """

    squad: int
    ground: int
    minutes: int


@dataclass
class ClubShare:
    """The plans of all squads while they are made to fit.

    Parameters
    ----------
    most
        Minutes that a squad may have of a ground, both by number, whatever else is left.
    stands
        Squads whose rules need more than is left: the others give way.
    """

    squads: Sequence[SquadSeason]
    grounds: Sequence[Ground]
    patience: Patience
    plans: list[Plan]
    solved: int = 0
    most: dict[tuple[int, int], int] = field(default_factory=dict)
    stands: set[int] = field(default_factory=set)

    def fit(self) -> None:
        """Let squads give way, who weighs least first, until nothing is too full."""
        for squad in self._giving_way():
            if self._too_full(squad):
                left = self._left(squad)
                self._plan_again(squad, left)
                if self._above(squad, left):
                    self.stands.add(squad)

    def spend(self) -> None:
        """Let squads have what is left of the hours, who weighs most first."""
        for squad in reversed(self._giving_way()):
            own = self.squads[squad]
            if self.plans[squad] != own.plan and squad not in self.stands:
                self._plan_again(squad, self._left(squad))

    def cut(self, broken: Iterable[Unfit]) -> bool:
        """Take hours from squads that have no whole timetable; tell whether any plan is another."""
        before, named = list(self.plans), list(broken)
        for squad, at, minutes in named:
            taken = self.grounds[at].of(self.squads, self.plans, squad)
            most = max(0, taken - minutes)
            self.most[squad, at] = min(self.most.get((squad, at), most), most)
        for squad in dict.fromkeys(each.squad for each in named):
            self._plan_again(squad, self._left(squad))
        return self.plans != before

    def _giving_way(self) -> list[int]:
        """Return squads by number, who gives way first before others."""
        order = range(len(self.squads) - 1, -1, -1)
        return sorted(order, key=lambda squad: self.squads[squad].weight)

    def _too_full(self, squad: int) -> bool:
        return any(
            ground.over(self.squads, self.plans)
            for ground in self.grounds
            if ground.of(self.squads, self.plans, squad)
        )

    def _left(self, squad: int) -> dict[int, int]:
        """Return the minutes that the others leave a squad, by ground."""
        found = {}
        for at, ground in enumerate(self.grounds):
            if ground.claim(squad) is not None:
                taken = ground.of(self.squads, self.plans, squad)
                others = ground.taken(self.squads, self.plans) - taken
                left = max(0, ground.left - others)
                found[at] = min(left, self.most.get((squad, at), left))
        return found

    def _plan_again(self, squad: int, left: dict[int, int]) -> None:
        """Plan a squad on the minutes it may have; what its rules need above them it keeps.

        Nothing is proven of it, so a quick search will do.
        """
        own = self.squads[squad]
        if not self._above(squad, left, own.plan):
            self.plans[squad] = own.plan
            return
        self.solved += 1
        quick = replace(own, settings=replace(own.settings, quick=True))
        hours = GroundMinutes(FREE.beside, limits=self._limits(squad, left), over=DEAREST)
        answer = best_plan(self.patience.squad(quick), hours, self.plans[squad], near=True)
        if answer is not None and self._better(squad, left, answer.plan):
            self.plans[squad] = answer.plan

    def _limits(self, squad: int, left: dict[int, int]) -> dict[Spots, int]:
        limits: dict[Spots, int] = {}
        for at, most in left.items():
            claim = self.grounds[at].claim(squad)
            assert claim is not None
            spots = (claim.places, claim.week)
            limits[spots] = min(most, limits.get(spots, most))
        return limits

    def _better(self, squad: int, left: dict[int, int], plan: Plan) -> bool:
        """Tell whether a plan keeps closer to the minutes left, or as close for less."""
        own = self.squads[squad]
        worth = [
            (self._above(squad, left, each), cost_of(own, each))
            for each in (plan, self.plans[squad])
        ]
        return worth[0] < worth[1]

    def _above(self, squad: int, left: dict[int, int], plan: Plan | None = None) -> int:
        """Return by how many minutes a squad's plan takes more than it may have."""
        plans = list(self.plans)
        plans[squad] = plan or plans[squad]
        return sum(
            max(0, self.grounds[at].of(self.squads, plans, squad) - most)
            for at, most in left.items()
        )
