"""Seasons of several squads that fit on what they share, and how near that is to the best."""

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from optimiser.club.ground import FREE, Ground
from optimiser.club.hour_prices import answers_at, bound_at, price_grounds
from optimiser.club.squad_season import SquadSeason, best_plan, club_cost, cost_of
from optimiser.domain.plan import Plan
from optimiser.domain.wording import counted
from optimiser.joint_model.ground_minutes import Hours, Spots

#: So often at most squads without a whole timetable give hours up.
CUTS = 3
#: Told what is being done.
Tell = Callable[[str], None]


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


#: Asked which squads have no whole timetable by some plans.
Fits = Callable[[Sequence[Plan]], list[Unfit]]


@dataclass(frozen=True)
class Together:
    """Plans of all squads.

    Parameters
    ----------
    cost, bound
        Of all squads, each by its weight, in units of the season cost; no set of plans that fits
        costs less than ``bound``.
    scarce
        Grounds on which the squads' own best plans do not fit together, by number: of hours, or
        because the week has no whole timetable.
    prices
        Of a minute by ground, in units of the club's cost.
    over
        Grounds on which rules leave no way to fit.
    unfit
        Grounds of weeks that still have no whole timetable.
    solved
        How many seasons were planned, one for each time.
    """

    plans: tuple[Plan, ...]
    cost: int
    bound: float
    scarce: tuple[int, ...] = ()
    prices: tuple[int, ...] = ()
    over: tuple[int, ...] = ()
    unfit: tuple[int, ...] = ()
    solved: int = 0
    seconds: float = 0.0

    @property
    def gap(self) -> float:
        """Return the share by which other plans could be better at most."""
        return max(0.0, (self.cost - self.bound) / max(1, self.cost))


def plan_together(
    squads: Sequence[SquadSeason],
    grounds: Sequence[Ground],
    unfit: Fits = lambda _: [],
    tell: Tell = lambda _: None,
) -> Together:
    """Return plans that fit on what is shared.

    Where the squads' own best plans fit they are the answer. Else hours have prices, see
    :func:`~optimiser.club.hour_prices.price_grounds`; what these leave too full is settled by
    priority: who weighs least gives way, and plans again on the hours that are left. In weeks where
    the hours fit and no whole timetable does, the squads that have none give hours up; the bound
    speaks of the hours that are open, so it stands whatever a timetable holds.

    Parameters
    ----------
    unfit
        Asked which squads have no whole timetable.
    tell
        Told what is being done.
    """
    began = time.perf_counter()
    own = tuple(squad.plan for squad in squads)
    alone = sum(squad.weight * squad.bound for squad in squads)
    broken = unfit(own)
    full = {at for at, ground in enumerate(grounds) if ground.over(squads, own)}
    scarce = tuple(sorted({*full, *(each.ground for each in broken)}))
    if not scarce:
        return Together(own, club_cost(squads, own), alone)
    priced = _Priced(own, (0,) * len(grounds), alone, 0)
    if full:
        priced = _priced(squads, grounds, tell)
    share = _Share(squads, grounds, list(priced.plans), priced.solved)
    if full:
        tell("Who gives way plans again on the hours that are left ...")
        share.fit()
        share.spend()
        broken = unfit(share.plans)
    left = share.cut_while(broken, unfit, tell)
    plans = tuple(share.plans)
    over = [at for at, ground in enumerate(grounds) if ground.over(squads, plans)]
    return Together(
        plans,
        club_cost(squads, plans),
        priced.bound,
        scarce,
        priced.prices,
        tuple(over),
        tuple(sorted({each.ground for each in left})),
        share.solved,
        time.perf_counter() - began,
    )


class _Priced(NamedTuple):
    """Plans by prices of hours, and the bound that follows from them."""

    plans: tuple[Plan, ...]
    prices: tuple[int, ...]
    bound: float
    solved: int


def _priced(squads: Sequence[SquadSeason], grounds: Sequence[Ground], tell: Tell) -> _Priced:
    """Return plans by prices, searched for as thoroughly as a season alone at the best of them."""
    priced = price_grounds(squads, grounds, tell)
    tell("The bound that these prices give ...")
    answers = answers_at(squads, grounds, priced.proving, priced.plans)
    bound = max(
        bound_at(squads, grounds, prices, found)
        for prices, found in (((0,) * len(grounds), {}), (priced.proving, answers))
    )
    plans = priced.plans
    if priced.proving == priced.prices:
        plans = tuple(answers[at].plan if at in answers else p for at, p in enumerate(plans))
    return _Priced(plans, priced.prices, bound, priced.solved + len(answers))


@dataclass
class _Share:
    """The plans of all squads while they are made to fit.

    Parameters
    ----------
    most
        Minutes that a squad may have of a ground, both by number, whatever else is left.
    """

    squads: Sequence[SquadSeason]
    grounds: Sequence[Ground]
    plans: list[Plan]
    solved: int = 0
    most: dict[tuple[int, int], int] = field(default_factory=dict)
    stands: set[int] = field(default_factory=set)

    def fit(self) -> None:
        """Let squads give way, who weighs least first, until nothing is too full."""
        for squad in self._giving_way():
            if self._too_full(squad) and not self._plan_again(squad, self._left(squad)):
                # its rules need more: it has what they need, and the next one gives way too
                self.stands.add(squad)

    def spend(self) -> None:
        """Let squads have what is left of the hours, who weighs most first."""
        for squad in reversed(self._giving_way()):
            own = self.squads[squad]
            if self.plans[squad] != own.plan and squad not in self.stands:
                self._plan_again(squad, self._left(squad))

    def cut_while(self, broken: Sequence[Unfit], unfit: Fits, tell: Tell) -> Sequence[Unfit]:
        """Take hours from squads that have no whole timetable, and return who has none then."""
        for _ in range(CUTS):
            if not broken:
                break
            weeks = len({self.grounds[each.ground].monday for each in broken})
            tell(f"No whole timetable in {counted(weeks, 'week')}: hours are given up ...")
            self.cut(broken)
            broken = unfit(self.plans)
        return broken

    def cut(self, broken: Sequence[Unfit]) -> None:
        """Take hours from squads that have no whole timetable."""
        for squad, at, minutes in broken:
            taken = self.grounds[at].of(self.squads, self.plans, squad)
            most = max(0, taken - minutes)
            self.most[squad, at] = min(self.most.get((squad, at), most), most)
        for squad in dict.fromkeys(each.squad for each in broken):
            self._plan_again(squad, self._left(squad))

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

    def _plan_again(self, squad: int, left: dict[int, int]) -> bool:
        """Plan a squad on the minutes it may have; False if its rules leave no way."""
        own = self.squads[squad]
        wanted = {at: self.grounds[at].of(self.squads, self._alone(squad), squad) for at in left}
        if all(wanted[at] <= most for at, most in left.items()):
            self.plans[squad] = own.plan
            return True
        limits: dict[Spots, int] = {}
        for at, most in left.items():
            claim = self.grounds[at].claim(squad)
            assert claim is not None
            spots = (claim.places, claim.week)
            limits[spots] = min(most, limits.get(spots, most))
        self.solved += 1
        hours = Hours(FREE.beside, limits=limits)
        answer = best_plan(own, hours, self.plans[squad], near=True)
        if answer is None:
            return False
        if self._breaks(squad, left) or cost_of(own, answer.plan) < cost_of(own, self.plans[squad]):
            self.plans[squad] = answer.plan
        return True

    def _breaks(self, squad: int, left: dict[int, int]) -> bool:
        """Tell whether a squad's plan takes more than it may have."""
        return any(
            self.grounds[at].of(self.squads, self.plans, squad) > most for at, most in left.items()
        )

    def _alone(self, squad: int) -> list[Plan]:
        """Return all plans with a squad's own best in its place."""
        return [*self.plans[:squad], self.squads[squad].plan, *self.plans[squad + 1 :]]
