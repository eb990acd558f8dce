"""Minutes of a season on shared ground: what they cost it, and how many it may have."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from optimiser.board.board import Board
from optimiser.board.model import Terms, scaled, total
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Place
from optimiser.domain.season import Season

#: One place of one week (from 0).
Spot = tuple[Place, int]
#: One or both places of one week (from 0), on the same ground.
Spots = tuple[frozenset[Place], int]


@dataclass(frozen=True)
class GroundMinutes:
    """What minutes on shared ground mean to one season.

    A session takes the minutes of its work and ``beside``: its warm-up.

    Parameters
    ----------
    beside
        Minutes of a session beside its work, by place.
    prices
        Cost of a minute, in units of the season cost.
    limits
        Most minutes.
    over
        Cost of a minute above them; left out, they hold whatever rules ask.
    """

    beside: Mapping[Place, int]
    prices: Mapping[Spot, int] = field(default_factory=dict)
    limits: Mapping[Spots, int] = field(default_factory=dict)
    over: int | None = None

    def charge(self, board: Board) -> None:
        """Add what minutes cost to a board whose season is priced."""
        cost = board.model.cost
        if self.over is not None:
            self._hold_dearly(board, self.over)
        for (place, week), price in sorted(self.prices.items()):
            for var, factor in scaled(self.terms(board, place, week), price).items():
                cost[var] = cost.get(var, 0) + factor

    def hold(self, board: Board) -> None:
        """Hold a board to the minutes there are, unless more of them cost something."""
        if self.over is None:
            for taken, most in self._taken(board):
                board.model.at_most(taken, most)

    def _hold_dearly(self, board: Board, price: int) -> None:
        model = board.model
        for taken, most in self._taken(board):
            ends = [max(f * model.lower[v], f * model.upper[v]) for v, f in taken.items()]
            above = model.var(0, max(0, sum(ends) - most), "minutes above")
            model.cost[above] = price
            model.at_most({**taken, above: -1}, most)

    def _taken(self, board: Board) -> Iterator[tuple[Terms, int]]:
        """Yield the minutes that are limited, as sums over decisions, and how many there are."""
        for (places, week), most in sorted(self.limits.items(), key=_in_order):
            taken = total(self.terms(board, place, week) for place in sorted(places))
            if taken:
                yield taken, max(0, most)

    def terms(self, board: Board, place: Place, week: int) -> Terms:
        """Return the minutes of one place in one week as a sum over decisions."""
        if board.season.weeks[week].closed:
            return {}
        here = [i for i, quality in enumerate(board.season.qualities) if quality.place == place]
        work = [board.minutes_of(index, week) for index in here]
        return total([*work, scaled(board.sessions(place, week), self.beside[place])])

    def minutes(self, season: Season, plan: Plan, place: Place, week: int) -> int:
        """Return the same from a plan alone."""
        count = plan.field[week] if place == "field" else plan.gym[week]
        work = sum(
            quality.minutes(doses[week], rung)
            for quality, rungs, doses in zip(season.qualities, plan.rungs, plan.doses, strict=True)
            if quality.place == place and (rung := rungs[week]) is not None
        )
        return work + self.beside[place] * count

    def cost(self, season: Season, plan: Plan) -> int:
        """Return what the minutes of a plan cost, from the plan alone."""
        return sum(
            price * self.minutes(season, plan, place, week)
            for (place, week), price in self.prices.items()
        )


def _in_order(limit: tuple[Spots, int]) -> tuple[int, list[Place]]:
    (places, week), _ = limit
    return week, sorted(places)
