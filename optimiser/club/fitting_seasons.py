"""Seasons of several squads that fit on what they share, and how near that is to the best."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Literal, NamedTuple

from optimiser.club.ground import Ground
from optimiser.club.hour_prices import answers_at, bound_at, price_grounds
from optimiser.club.share import ClubShare, Unfit
from optimiser.club.squad_season import SquadSeason, club_cost
from optimiser.club.time_limit import PATIENT, Patience, TimeUpError
from optimiser.domain.plan import Plan
from optimiser.domain.wording import counted
from optimiser.joint_model.verdict import NOTHING

#: So often at most squads without a whole timetable give hours up.
ROUNDS = 4
#: Told what is being done.
Tell = Callable[[str], None]
#: Asked which squads have no whole timetable by some plans.
Fits = Callable[[Sequence[Plan]], list[Unfit]]
#: What ended it: nothing left to do, as many rounds as there are, the time, or Ctrl-C.
Ended = Literal["done", "rounds", "clock", "hand"]


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
        Grounds that have fewer hours than these plans take.
    unfit
        Grounds of weeks that still have no whole timetable.
    solved
        How many seasons were planned, one for each time.
    rounds
        How often hours were given up for the sake of timetables.
    looked_at
        False if the search ended before the timetables of any plans were known.
    """

    plans: tuple[Plan, ...]
    cost: int
    bound: float
    scarce: tuple[int, ...] = ()
    prices: tuple[int, ...] = ()
    over: tuple[int, ...] = ()
    unfit: tuple[int, ...] = ()
    solved: int = 0
    rounds: int = 0
    seconds: float = 0.0
    ended: Ended = "done"
    looked_at: bool = True

    @property
    def gap(self) -> float:
        """Return the share by which other plans could be better at most."""
        return max(0.0, (self.cost - self.bound) / max(1, self.cost))

    @property
    def decided_by(self) -> Literal["proof", "rounds", "clock", "hand"]:
        """Return what the answer rests on: a proof, or what ended the search."""
        if self.gap <= NOTHING and self.looked_at and not self.over and not self.unfit:
            return "proof"
        return "rounds" if self.ended == "done" else self.ended


def plan_together(
    squads: Sequence[SquadSeason],
    grounds: Sequence[Ground],
    unfit: Fits = lambda _: [],
    tell: Tell = lambda _: None,
    patience: Patience = PATIENT,
) -> Together:
    """Return plans that fit on what is shared.

    Where the squads' own best plans fit they are the answer. Else hours have prices, see
    :func:`~optimiser.club.hour_prices.price_grounds`; what these leave too full is settled by
    priority: who weighs least gives way, and plans again on the hours that are left. In weeks where
    the hours fit and no whole timetable does, the squads that have none give hours up, in so many
    rounds at most; the bound speaks of the hours that are open, so it stands whatever a timetable
    holds.

    It ends with the best plans so far when the time is over or Ctrl-C is pressed.

    Parameters
    ----------
    unfit
        Asked which squads have no whole timetable; it may raise ``TimeUpError``.
    tell
        Told what is being done.
    """
    search = _Search(squads, grounds, unfit, tell, patience)
    try:
        ended = search.run()
    except TimeUpError:
        ended = "clock"
    except KeyboardInterrupt:
        ended = "hand"
    return search.answer(ended)


class _Reached(NamedTuple):
    """Plans, by how much they do not fit: minutes, then those without a timetable, then cost."""

    over: int
    lost: int
    cost: int
    plans: tuple[Plan, ...]
    unfit: tuple[int, ...]


@dataclass
class _Search:
    """The search for plans that fit, and the best it has reached."""

    squads: Sequence[SquadSeason]
    grounds: Sequence[Ground]
    unfit: Fits
    tell: Tell
    patience: Patience
    best: _Reached | None = None
    bound: float = 0.0
    prices: tuple[int, ...] = ()
    scarce: tuple[int, ...] = ()
    solved: int = 0
    rounds: int = 0
    share: ClubShare | None = field(default=None)

    def run(self) -> Ended:
        """Search to the end, and return what that was."""
        own = tuple(squad.plan for squad in self.squads)
        self.bound = sum(squad.weight * squad.bound for squad in self.squads)
        self.prices = (0,) * len(self.grounds)
        full = {at for at, ground in enumerate(self.grounds) if ground.over(self.squads, own)}
        self.scarce = tuple(sorted(full))
        broken = self._looked_at(own)
        self.scarce = tuple(sorted({*full, *(each.ground for each in broken)}))
        plans = self._priced() if full else own
        share = ClubShare(self.squads, self.grounds, self.patience, list(plans))
        self.share = share
        if full:
            self.tell("Who gives way plans again on the hours that are left ...")
            share.fit()
            share.spend()
            broken = self._looked_at(tuple(share.plans))
        return self._give_up(share, broken)

    def _give_up(self, share: ClubShare, broken: Sequence[Unfit]) -> Ended:
        """Have hours given up until every week has a timetable, or nobody can give more."""
        while broken and self.rounds < ROUNDS:
            weeks = len({self.grounds[each.ground].monday for each in broken})
            self.rounds += 1
            self.tell(
                f"No whole timetable in {counted(weeks, 'week')}: hours are given up, "
                f"round {self.rounds} of {ROUNDS} at most ..."
            )
            if not share.cut(broken):
                return "done"
            broken = self._looked_at(tuple(share.plans))
        return "rounds" if broken else "done"

    def _priced(self) -> tuple[Plan, ...]:
        """Return plans by prices, searched for as a season alone at the best of them."""
        priced = price_grounds(self.squads, self.grounds, self.tell, self.patience)
        self.prices, self.solved = priced.prices, self.solved + priced.solved
        answers = {}
        if any(priced.proving):
            self.tell("The bound that these prices give ...")
            answers = answers_at(
                self.squads, self.grounds, priced.proving, priced.plans, self.patience
            )
            self.bound = max(
                self.bound, bound_at(self.squads, self.grounds, priced.proving, answers)
            )
            self.solved += len(answers)
        if priced.proving != priced.prices:
            return priced.plans
        return tuple(answers[at].plan if at in answers else p for at, p in enumerate(priced.plans))

    def _looked_at(self, plans: tuple[Plan, ...]) -> list[Unfit]:
        """Return who has no whole timetable by some plans, which are kept if they fit best."""
        self.tell(f"The timetables of {counted(self._weeks(), 'week')} ...")
        cost = club_cost(self.squads, plans)
        over = sum(ground.over(self.squads, plans) for ground in self.grounds)
        broken = self.unfit(plans)
        named = tuple(sorted({each.ground for each in broken}))
        lost = sum(each.minutes for each in broken)
        reached = _Reached(over, lost, cost, plans, named)
        if self.best is None or reached[:3] < self.best[:3]:
            self.best = reached
        return broken

    def _weeks(self) -> int:
        return len({ground.monday for ground in self.grounds})

    def answer(self, ended: Ended) -> Together:
        """Return the best that was reached."""
        best = self.best
        plans = best.plans if best else tuple(squad.plan for squad in self.squads)
        over = [at for at, ground in enumerate(self.grounds) if ground.over(self.squads, plans)]
        return Together(
            plans,
            club_cost(self.squads, plans),
            self.bound,
            self.scarce,
            self.prices,
            tuple(over),
            best.unfit if best else (),
            self.solved + (self.share.solved if self.share else 0),
            self.rounds,
            self.patience.spent,
            ended,
            best is not None,
        )
