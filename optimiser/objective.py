"""What the stages minimise: distance from the emphasis, then distance from readiness targets.

Readiness is priced in the kernel's own units, so that a cost is an exact sum: counted in whole
tenths of a point, as it once was, rounding up was most of the gap between plan and bound.
"""

from dataclasses import dataclass, field

import numpy as np

from optimiser.board.board import Board
from optimiser.board.model import Model, Terms
from optimiser.domain.fixture import Priority
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose
from optimiser.domain.season import Season, Week
from optimiser.domain.strict import Strict
from optimiser.readiness import UNITS, Kernel, kernel

#: A rule with a price asks it in tenths of a readiness point in stage 2.
TENTH = UNITS // 10
#: No readiness is this far from a target.
FARTHEST = 200 * UNITS


class Prices(Strict):
    """What misses cost.

    Parameters
    ----------
    tolerance
        Points of emphasis that cost nothing.
    block
        Cost of opening a block, as it opens with a lighter week.
    none, touch, full
        Cost in stage 2 of a week with nothing, a touch or a full dose of a quality (times its
        weight), in ten-thousandths of a readiness point: where readiness leaves the choice open,
        everything is trained properly and nothing more than that.
    high, medium, low, plain
        Weight of a week by its most important fixture; ``plain`` has none.
    below, above
        Readiness points under and over the target that cost nothing. More than asked for does
        little harm, so the margin above is wide: it only stops work that no target needs.
    fall
        Points a week by which the line above which readiness costs comes down at most, about what
        rest leaves of a peak: else the fatigue of hard work would be the way to a low target.
    excess
        Cost of a ten-thousandth of a point above the target (below it, the week's weight).
    """

    tolerance: int = 8
    block: int = 80
    none: int = 3000
    touch: int = 1000
    full: int = 1000
    high: int = 8
    medium: int = 4
    low: int = 2
    plain: int = 1
    below: float = 0.5
    above: float = 12.0
    fall: float = 12.0
    excess: int = 1

    def ceilings(self, season: Season) -> list[float]:
        """Return the points above which readiness costs, by week."""
        found: list[float] = []
        for week in season.weeks:
            falling = found[-1] - self.fall if found else 0.0
            found.append(max(week.target + self.above, falling))
        return found

    def week(self, week: Week) -> int:
        """Return the weight of a week."""
        kinds = {Priority.HIGH: self.high, Priority.MEDIUM: self.medium, Priority.LOW: self.low}
        return kinds[week.top_priority] if week.top_priority else self.plain


def emphasis_cost(season: Season, prices: Prices, index: int, week: int, rung: int) -> int:
    """Return what standing on ``rung`` costs one quality in one week (stage 1)."""
    quality = season.qualities[index]
    miss = abs(quality.position(rung) - season.emphasis[index][week]) - prices.tolerance
    return round(max(0.0, miss)) * quality.weight


def price_emphasis(board: Board, prices: Prices) -> None:
    """Make stage 1 the model's cost."""
    season, model = board.season, board.model
    model.cost.clear()
    model.offset = 0
    model.charge = 1
    for (index, arc, rung, _, _), var in board.steps.items():
        cost = sum(emphasis_cost(season, prices, index, week, rung) for week in arc.weeks)
        if cost:
            model.cost[var] = cost
    for var in board.arcs.values():
        model.cost[var] = prices.block


def emphasis_value(season: Season, prices: Prices, plan: Plan) -> int:
    """Return stage 1's objective, worked out from the plan alone."""
    total = 0
    for index, quality in enumerate(season.qualities):
        ladder = np.round(np.linspace(0, 100, len(quality.bands)))
        for week in season.weeks:
            rung = plan.rungs[index][week.index]
            if rung is None:
                continue
            miss = abs(ladder[rung] - season.emphasis[index][week.index]) - prices.tolerance
            total += round(max(0.0, float(miss))) * quality.weight
    return total + prices.block * len(plan.blocks())


@dataclass
class ReadinessCost:
    """The variables that carry stage 2's cost."""

    short: dict[int, int] = field(default_factory=dict)
    over: dict[int, int] = field(default_factory=dict)


def price_readiness(board: Board, prices: Prices, plan: Plan) -> ReadinessCost:
    """Make stage 2 the model's cost: doses are free, bands are those of ``plan``."""
    season, model = board.season, board.model
    tables, background = kernel(season).whole()
    out = ReadinessCost()
    model.cost.clear()
    model.offset = 0
    model.charge = TENTH
    ceilings = prices.ceilings(season)
    for week in season.weeks:
        if week.closed:
            continue
        ready, outside = _ready_terms(board, plan, tables, week.index), int(background[week.index])
        least = round(week.target * UNITS) - round(prices.below * UNITS)
        span = (least - outside, round(ceilings[week.index] * UNITS) - outside)
        _price_week(model, prices, week, ready, span, out)
        _price_little(board, prices, week.index)
    return out


def _price_little(board: Board, prices: Prices, week: int) -> None:
    """Price all doses but the reduced, as savings on the cost of nothing at all."""
    model = board.model
    for index, quality in enumerate(board.season.qualities):
        model.offset += prices.none * quality.weight
        savings = {
            Dose.TOUCH: prices.none - prices.touch,
            Dose.REDUCED: prices.touch,
            Dose.FULL: -prices.full,
        }
        for least, saved in savings.items():
            for var in board.at_least(index, week, least):
                model.cost[var] = model.cost.get(var, 0) - saved * quality.weight


def _ready_terms(board: Board, plan: Plan, tables: tuple[np.ndarray, ...], week: int) -> Terms:
    terms: Terms = {}
    for past in board.open_weeks():
        if past > week:
            break
        for index, table in enumerate(tables):
            rung = plan.rungs[index][past]
            assert rung is not None
            steps = np.diff(table[week - past, rung])
            for least, gain in zip((1, 2, 3), steps, strict=True):
                for var in board.at_least(index, past, least):
                    if gain:
                        terms[var] = int(gain)
    return terms


def _price_week(
    model: Model,
    prices: Prices,
    week: Week,
    ready: Terms,
    span: tuple[int, int],
    out: ReadinessCost,
) -> None:
    short = out.short[week.index] = model.var(0, FARTHEST, f"short[{week.index}]")
    over = out.over[week.index] = model.var(0, FARTHEST, f"over[{week.index}]")
    model.fine |= {short, over}
    model.between({**ready, short: 1, over: -1}, *span)
    model.cost[short] = prices.week(week)
    model.cost[over] = prices.excess


def readiness_value(season: Season, prices: Prices, plan: Plan) -> int:
    """Return stage 2's objective from the whole-number kernel, by plain sums over the plan."""
    return sum(readiness_by_week(season, prices, plan))


def readiness_by_week(season: Season, prices: Prices, plan: Plan) -> list[int]:
    """Return what each week adds to stage 2's objective."""
    tables, background = _whole(season)
    ceilings = prices.ceilings(season)
    return [
        _week_value(season, prices, plan, week, round(most * UNITS), tables, background)
        for week, most in zip(season.weeks, ceilings, strict=True)
    ]


def _whole(season: Season) -> tuple[tuple[np.ndarray, ...], np.ndarray]:
    made: Kernel = kernel(season)
    return made.whole()


def _week_value(
    season: Season,
    prices: Prices,
    plan: Plan,
    week: Week,
    most: int,
    tables: tuple[np.ndarray, ...],
    background: np.ndarray,
) -> int:
    if week.closed:
        return 0
    ready = int(background[week.index])
    for index, table in enumerate(tables):
        for past in range(week.index + 1):
            rung = plan.rungs[index][past]
            if rung is not None:
                ready += int(table[week.index - past, rung, plan.doses[index][past]])
    goal = round(week.target * UNITS)
    short = max(0, goal - round(prices.below * UNITS) - ready)
    over = max(0, ready - most)
    little = {Dose.NONE: prices.none, Dose.TOUCH: prices.touch, Dose.FULL: prices.full}
    spared = sum(
        little.get(row[week.index], 0) * quality.weight
        for quality, row in zip(season.qualities, plan.doses, strict=True)
    )
    return short * prices.week(week) + over * prices.excess + spared
