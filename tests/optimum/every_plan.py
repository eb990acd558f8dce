"""The best plan of a tiny season by trying them all, with audits and scores and no solver."""

from collections.abc import Iterator, Sequence
from itertools import product

import numpy as np

from constraints.pin import Pin
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose, dose_of
from optimiser.domain.season import Season
from optimiser.objective import TENTH, Prices, readiness_value
from optimiser.readiness import UNITS, kernel
from optimiser.rule import Rule

#: Rules that speak of sessions.
SESSIONS = ("congestion", "session_caps")
#: The cheapest sessions by week and its two doses.
Known = dict[tuple[int, Dose, Dose], tuple[int, int] | None]

# --- stage 1: blocks and rungs ------------------------------------------------------------


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


def light_plan(
    season: Season, starts: Sequence[int], rungs: Sequence[Sequence[int]]
) -> Plan:
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


# --- stage 2: doses -----------------------------------------------------------------------


def best_doses(
    season: Season, rules: Sequence[Rule], prices: Prices, bands: Plan
) -> tuple[int, Plan] | None:
    """Return the least stage 2 cost of any doses for the bands of a plan, and the doses.

    Every choice of doses is scored, then they are gone through from the cheapest on until the
    rest costs more than the best that the rules allow. Pinned doses are left out beforehand.
    """
    opened = [week.index for week in season.weeks if not week.closed]
    choices = np.array(list(product(range(4), repeat=2 * len(opened))), dtype=np.int8)
    for column, dose in _pinned(season, rules, opened).items():
        choices = choices[choices[:, column] == dose]
    others = [rule for rule in rules if rule.name not in SESSIONS]
    known = _sessions_by_week(season, [r for r in rules if r.name in SESSIONS], bands, opened)
    for (week, one, two), held in known.items():
        if held is None:
            at = opened.index(week)
            choices = choices[(choices[:, at] != one) | (choices[:, len(opened) + at] != two)]
    costs = _scores(season, prices, bands, choices, opened)
    best: tuple[int, Plan] | None = None
    for at in np.argsort(costs, kind="stable"):
        if best is not None and costs[at] >= best[0]:
            break
        plan = _with_doses(bands, choices[at], opened)
        aside = _total(season, plan, others)
        if aside is None or (best is not None and costs[at] + TENTH * aside >= best[0]):
            continue
        held = plan
        for week in opened:
            sessions = known[week, plan.doses[0][week], plan.doses[1][week]]
            assert sessions is not None
            held = _held(held, week, *sessions)
        assert readiness_value(season, prices, held) == costs[at], "scores disagree"
        paid = _total(season, held, rules)
        if paid is not None and (best is None or costs[at] + TENTH * paid < best[0]):
            best = int(costs[at]) + TENTH * paid, held
    return best


def _pinned(season: Season, rules: Sequence[Rule], opened: list[int]) -> dict[int, int]:
    return {
        season.keys.index(choice.quality) * len(opened) + opened.index(choice.week - 1): int(
            dose_of(choice.dose)
        )
        for rule in rules
        if isinstance(rule, Pin)
        for choice in rule.choices
        if choice.dose
    }


def _scores(season, prices, bands, choices, opened):
    """Return the stage 2 cost of each choice: one row of doses, quality by quality."""
    tables, background = kernel(season).whole()
    costs = np.zeros(len(choices), dtype=np.int64)
    for week in opened:
        ready = np.full(len(choices), background[week])
        for index, table in enumerate(tables):
            for column, past in enumerate(opened):
                if past <= week:
                    doses = choices[:, index * len(opened) + column]
                    ready += table[week - past, bands.rungs[index][past], doses]
        goal = round(season.weeks[week].target * UNITS)
        short = goal - round(prices.below * UNITS) - ready
        over = ready - round(_line(season, prices, week) * UNITS)
        costs += np.maximum(short, 0) * prices.week(season.weeks[week])
        costs += np.maximum(over, 0) * prices.excess
    little = np.array([prices.none, prices.touch, 0, prices.full])
    for index, quality in enumerate(season.qualities):
        mine = choices[:, index * len(opened) : (index + 1) * len(opened)]
        costs += quality.weight * little[mine].sum(axis=1)
    return costs


def _line(season, prices, week):
    """Return the points above which readiness costs: any target before it still holds up a part."""
    return max(
        each.target + prices.above - (week - each.index) * prices.fall
        for each in season.weeks[: week + 1]
    )


def _with_doses(bands: Plan, choice, opened: list[int]) -> Plan:
    rows = [[Dose.NONE] * bands.weeks for _ in bands.rungs]
    for index, row in enumerate(rows):
        for column, week in enumerate(opened):
            row[week] = Dose(int(choice[index * len(opened) + column]))
    counts = [tuple(int(dose > 0) for dose in row) for row in rows]
    return bands.model_copy(
        update={"doses": tuple(map(tuple, rows)), "field": counts[0], "gym": counts[1]}
    )


def _sessions_by_week(
    season: Season, rules: Sequence[Rule], bands: Plan, opened: list[int]
) -> Known:
    """Return the cheapest sessions of each week and its doses, None where none are legal.

    What these rules say of a week depends on that week's doses and sessions only.
    """
    known: Known = {}
    for at, week in enumerate(opened):
        for one, two in product(Dose, Dose):
            choice = [0] * (2 * len(opened))
            choice[at], choice[len(opened) + at] = one, two
            plan = _with_doses(bands, choice, opened)
            known[week, one, two] = _cheapest_week(season, rules, plan, week)
    return known


def _cheapest_week(
    season: Season, rules: Sequence[Rule], plan: Plan, week: int
) -> tuple[int, int] | None:
    ways = [
        (paid, field, gym)
        for field, gym in product(_counts(plan, 0, week), _counts(plan, 1, week))
        if (paid := _total(season, _held(plan, week, field, gym), rules, week)) is not None
    ]
    return min(ways)[1:] if ways else None


def _held(plan: Plan, week: int, field: int, gym: int) -> Plan:
    return plan.model_copy(
        update={"field": _put(plan.field, week, field), "gym": _put(plan.gym, week, gym)}
    )


def _counts(plan: Plan, index: int, week: int) -> range:
    """More than a touch may be split over two sessions."""
    dose = plan.doses[index][week]
    return range(int(dose > 0), min(int(dose), 2) + 1)


def _put(row: tuple[int, ...], week: int, value: int) -> tuple[int, ...]:
    return (*row[:week], value, *row[week + 1 :])


def _total(
    season: Season, plan: Plan, rules: Sequence[Rule], week: int | None = None
) -> int | None:
    """Return what a plan pays (in one week), or None if it breaks a rule that must hold."""
    paid = 0
    for rule in rules:
        found = [b for b in rule.audit(plan, season) if week is None or b.week == week]
        if found and rule.price is None:
            return None
        paid += sum(breach.excess for breach in found) * (rule.price or 0)
    return paid
