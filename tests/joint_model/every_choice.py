"""The best plan of a tiny season by trying every block, band and dose; no solver."""

from collections.abc import Iterator, Sequence
from itertools import product

from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose
from optimiser.domain.rates import Rates
from optimiser.domain.season import Season
from optimiser.joint_model.cost import season_cost
from optimiser.rule import Rule
from optimiser.setup.amounts import sessions_wanted


def cheapest(season: Season, rules: Sequence[Rule], rates: Rates) -> int | None:
    """Return the least season cost of any plan that keeps the rules; None if none does."""
    must = [rule for rule in rules if rule.price is None]
    costs = [
        season_cost(season, rules, plan, rates).total
        for plan in every_plan(season)
        if not any(rule.audit(plan, season) for rule in must)
    ]
    return min(costs, default=None)


def every_plan(season: Season) -> Iterator[Plan]:
    """Yield every plan of a season with one quality, no closed week and the sessions wanted."""
    (quality,) = season.qualities
    aims = [sum(sessions_wanted(season, week)) for week in range(len(season.weeks))]
    weeks = len(season.weeks)
    for cuts in product((False, True), repeat=weeks - 1):
        starts = (0, *(week for week, cut in enumerate(cuts, 1) if cut))
        block = [sum(start <= week for start in starts) - 1 for week in range(weeks)]
        for way in product(range(len(quality.bands)), repeat=len(starts)):
            for doses in product(Dose, repeat=weeks):
                # no session without work; more than a touch may be done in two
                held = tuple(map(min, aims, map(min, (2,) * weeks, doses)))
                yield Plan(
                    starts=starts,
                    rungs=(tuple(way[at] for at in block),),
                    doses=(doses,),
                    field=held if quality.place == "field" else (0,) * weeks,
                    gym=held if quality.place == "gym" else (0,) * weeks,
                )
