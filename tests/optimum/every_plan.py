"""The best plan of a tiny season by trying them all, with audits and scores and no solver."""

from collections.abc import Iterator, Sequence
from itertools import product

from bands_alone import Prices

from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose
from optimiser.domain.season import Season
from optimiser.rule import Rule


def best_emphasis(season: Season, rules: Sequence[Rule], prices: Prices) -> int | None:
    """Return the least stage 1 cost of any plan, or None if no plan keeps the rules.

    The rules may speak of blocks and rungs only. Given the blocks, what they say of one quality
    does not depend on the other, so each quality is tried on its own.
    """
    best = None
    for starts in all_starts(season):
        cost = _with_blocks(season, rules, prices, starts, best)
        if cost is not None and (best is None or cost < best):
            best = cost
    return best


def all_starts(season: Season) -> Iterator[tuple[int, ...]]:
    """Yield every way to cut the open weeks into blocks of at most eight weeks."""
    free, forced = [], []
    for week in season.weeks:
        if not week.closed:
            first = week.index == 0 or season.weeks[week.index - 1].closed
            (forced if first else free).append(week.index)
    for chosen in product((False, True), repeat=len(free)):
        more = [week for week, take in zip(free, chosen, strict=True) if take]
        yield tuple(sorted(forced + more))


def _with_blocks(
    season: Season,
    rules: Sequence[Rule],
    prices: Prices,
    starts: tuple[int, ...],
    known: int | None,
) -> int | None:
    """Return the least cost with these blocks, or None if none is legal and below ``known``."""
    plan = light_plan(season, starts, [[0] * len(starts)] * len(season.qualities))
    paid = _price(season, plan, rules, None)
    if paid is None:
        return None
    total = paid + prices.block * len(plan.blocks())
    for index in range(len(season.qualities)):
        most = None if known is None else known - total
        best = _best_rungs(season, rules, prices, starts, index, most)
        if best is None:
            return None
        total += best
    return total


def _best_rungs(
    season: Season,
    rules: Sequence[Rule],
    prices: Prices,
    starts: tuple[int, ...],
    index: int,
    most: int | None,
) -> int | None:
    """Go through the rungs of one quality from the cheapest on; what rules ask comes on top."""
    quality = season.qualities[index]
    best, found = most, None
    weeks = [_block_weeks(season, starts, at) for at in range(len(starts))]
    table = [
        [sum(_miss(season, prices, index, week, rung) for week in here) for here in weeks]
        for rung in range(len(quality.bands))
    ]
    ways = product(range(len(quality.bands)), repeat=len(starts))
    priced = ((sum(table[rung][at] for at, rung in enumerate(way)), way) for way in ways)
    for cost, rungs in sorted(priced):
        if best is not None and cost >= best:
            break
        rows = [[0] * len(starts) for _ in season.qualities]
        rows[index] = list(rungs)
        paid = _price(season, light_plan(season, starts, rows), rules, quality.key)
        if paid is not None and (best is None or cost + paid < best):
            best = found = cost + paid
    return found


def _block_weeks(season: Season, starts: Sequence[int], at: int) -> list[int]:
    stop = starts[at + 1] if at + 1 < len(starts) else len(season.weeks)
    return [week for week in range(starts[at], stop) if not season.weeks[week].closed]


def _miss(season: Season, prices: Prices, index: int, week: int, rung: int) -> int:
    """Return the price of the distance from a rung to the week's emphasis."""
    quality = season.qualities[index]
    stand = round(100 * rung / (len(quality.bands) - 1))
    off = abs(stand - season.emphasis[index][week]) - prices.tolerance
    return quality.weight * round(max(0.0, off))


def _price(season: Season, plan: Plan, rules: Sequence[Rule], key: str | None) -> int | None:
    """Return what breaches of one quality (or of none) cost; None if a rule must hold."""
    paid = 0
    for rule in rules:
        excess = sum(b.excess for b in rule.audit(plan, season) if b.quality == key)
        if excess and rule.price is None:
            return None
        paid += excess * (rule.price or 0)
    return paid


def light_plan(season: Season, starts: Sequence[int], rungs: Sequence[Sequence[int]]) -> Plan:
    """Return a plan of touches with the given rungs by block."""
    shut = [week.closed for week in season.weeks]
    block = [sum(start <= week.index for start in starts) - 1 for week in season.weeks]
    opened = tuple(int(not here) for here in shut)
    return Plan(
        starts=tuple(starts),
        rungs=tuple(
            tuple(None if here else row[at] for here, at in zip(shut, block, strict=True))
            for row in rungs
        ),
        doses=(tuple(Dose(here) for here in opened),) * len(season.qualities),
        field=opened,
        gym=opened,
    )
