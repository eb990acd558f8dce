"""The best plan of a tiny season by trying every block, band and dose; no solver."""

from collections.abc import Iterator, Sequence
from itertools import product

from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose
from optimiser.domain.rates import Rates
from optimiser.domain.season import Season
from optimiser.rule import Rule
from optimiser.together.cost import season_cost


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
    """Yield every plan of a season with one quality and no closed week, one session for work."""
    (quality,) = season.qualities
    weeks = len(season.weeks)
    for cuts in product((False, True), repeat=weeks - 1):
        starts = (0, *(week for week, cut in enumerate(cuts, 1) if cut))
        block = [sum(start <= week for start in starts) - 1 for week in range(weeks)]
        for way in product(range(len(quality.bands)), repeat=len(starts)):
            for doses in product(Dose, repeat=weeks):
                worked = tuple(int(dose > Dose.NONE) for dose in doses)
                field = quality.place == "field"
                yield Plan(
                    starts=starts,
                    rungs=(tuple(way[at] for at in block),),
                    doses=(doses,),
                    field=worked if field else (0,) * weeks,
                    gym=(0,) * weeks if field else worked,
                )
