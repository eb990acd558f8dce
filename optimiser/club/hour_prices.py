"""Prices of hours where squads ask for more than there is: plans by them, and a bound."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from optimiser.club.ground import FREE, Ground
from optimiser.club.relaxed_prices import DEAREST, relaxed_prices
from optimiser.club.squad_season import FittedPlan, SquadSeason, best_plan
from optimiser.club.time_limit import Patience
from optimiser.domain.plan import Plan
from optimiser.joint_model.ground_minutes import GroundMinutes, Spot

#: Rounds of prices: each plans every squad that pays once.
ROUNDS = 3
#: Price that a minute begins with where the relaxation sees no need of any, in units of cost.
FIRST = 20
#: Minutes that may be left at a price: no session is shorter.
UNUSED = 30


@dataclass(frozen=True)
class Priced:
    """Plans by prices.

    Parameters
    ----------
    plans
        Of all squads; they may still ask for more than there is.
    prices
        Of a minute by ground, in units of the club's cost: those at which plans fit best.
    proving
        Those of which the best bound follows; all 0 where the squads alone give it.
    solved
        How many seasons were planned, one for each time.
    """

    plans: tuple[Plan, ...]
    prices: tuple[int, ...]
    proving: tuple[int, ...]
    solved: int


@dataclass
class _Bracket:
    """The prices of one ground between which demand meets what there is."""

    price: int
    dearest: int
    low: int = 0
    high: int | None = None

    def raised(self) -> None:
        """Ask more, as too much is wanted: halfway to what was too dear, else half more."""
        self.low = max(self.low, self.price)
        middle = 3 * self.price // 2 if self.high is None else (self.price + self.high + 1) // 2
        self.price = min(self.dearest, max(middle, FIRST))

    def lowered(self) -> None:
        """Ask less, as some of it is left: halfway to what was too cheap."""
        self.high = self.price if self.high is None else min(self.high, self.price)
        self.price = (self.low + self.price) // 2


def price_grounds(
    squads: Sequence[SquadSeason],
    grounds: Sequence[Ground],
    tell: Callable[[str], None],
    patience: Patience,
) -> Priced:
    """Return plans by prices of the grounds' minutes.

    Prices begin as what a minute is worth in the relaxation of all seasons together; from there
    each is raised while too much is wanted and lowered while some is left, halfway between what was
    too cheap and too dear. Searches are quick: prices need no proof.
    """
    quick = [replace(each, settings=replace(each.settings, quick=True)) for each in squads]
    plans = tuple(squad.plan for squad in squads)
    dearest = DEAREST * max(squad.weight for squad in squads)
    brackets = [_Bracket(price, dearest) for price in relaxed_prices(squads, grounds)]
    for bracket, ground in zip(brackets, grounds, strict=True):
        if not bracket.price and ground.over(squads, plans):
            bracket.raised()
    none = (0,) * len(grounds)
    best, least, bound = Priced(plans, none, none, 0), -1, bound_at(squads, grounds, none, {})
    for number in range(ROUNDS):
        tell(f"Prices of scarce hours, round {number + 1} ...")
        prices = tuple(each.price for each in brackets)
        answers = answers_at(quick, grounds, prices, plans, patience)
        best = replace(best, solved=best.solved + len(answers))
        plans = tuple(
            answers[at].plan if at in answers else squad.plan for at, squad in enumerate(squads)
        )
        if (here := bound_at(squads, grounds, prices, answers)) > bound:
            best, bound = replace(best, proving=prices), here
        over = sum(ground.over(squads, plans) for ground in grounds)
        if least < 0 or over <= least:
            best, least = replace(best, plans=plans, prices=prices), over
        if not _moved(brackets, grounds, squads, plans):
            break
    return best


def answers_at(
    squads: Sequence[SquadSeason],
    grounds: Sequence[Ground],
    prices: Sequence[int],
    plans: Sequence[Plan],
    patience: Patience,
) -> dict[int, FittedPlan]:
    """Return the best plans of squads that pay for hours, by number."""
    found = {}
    for at, squad in enumerate(squads):
        hours = _hours(squads, grounds, prices, at)
        answer = best_plan(patience.squad(squad), hours, plans[at]) if hours.prices else None
        if answer is not None:
            found[at] = answer
    return found


def bound_at(
    squads: Sequence[SquadSeason],
    grounds: Sequence[Ground],
    prices: Sequence[int],
    answers: Mapping[int, FittedPlan],
) -> float:
    """Return what no set of plans that fits costs less than, by Lagrange's argument.

    All squads cost so much at least if they pay for every minute, and the minutes there are bring
    in no more than so much of that. Any prices give such a bound.
    """
    paid = sum(price * ground.left for price, ground in zip(prices, grounds, strict=True))
    # what is paid takes nothing from what a plan costs without
    least = [
        squad.weight * max(squad.bound, answers[at].bound if at in answers else 0.0)
        for at, squad in enumerate(squads)
    ]
    return sum(least) - paid


def _hours(
    squads: Sequence[SquadSeason], grounds: Sequence[Ground], prices: Sequence[int], squad: int
) -> GroundMinutes:
    """Return the prices that a squad pays, in its own points, which count by its weight."""
    found: dict[Spot, int] = {}
    for price, ground in zip(prices, grounds, strict=True):
        claim, own = ground.claim(squad), price // squads[squad].weight
        if claim is not None and own:
            for place in claim.places:
                found[place, claim.week] = found.get((place, claim.week), 0) + own
    return GroundMinutes(FREE.beside, prices=found)


def _moved(
    brackets: Sequence[_Bracket],
    grounds: Sequence[Ground],
    squads: Sequence[SquadSeason],
    plans: Sequence[Plan],
) -> bool:
    """Move every price by what plans ask for; tell whether any is another now."""
    before = [each.price for each in brackets]
    for bracket, ground in zip(brackets, grounds, strict=True):
        if ground.over(squads, plans):
            bracket.raised()
        elif bracket.price and ground.taken(squads, plans) + UNUSED < ground.left:
            bracket.lowered()
    return before != [each.price for each in brackets]
