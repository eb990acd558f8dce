"""The season cost of a plan: six parts, each worked out from the plan alone."""

from collections.abc import Sequence
from dataclasses import dataclass, fields

from optimiser.domain.plan import Plan
from optimiser.domain.quality import Place
from optimiser.domain.rates import Rates
from optimiser.domain.season import Season
from optimiser.joint_model.like import like_before
from optimiser.response.readiness import UNITS, kernel, units
from optimiser.rule import Rule
from optimiser.setup.amounts import PLACES, sessions_wanted, wanted


@dataclass(frozen=True)
class Parts:
    """What a plan costs, in ten-thousandths of a readiness point.

    Parameters
    ----------
    readiness
        Below target, by the weight of the week.
    bands
        Rungs off the emphasis wanted.
    amounts
        Doses off the amount wanted, and sessions fewer than wanted.
    steadiness
        Doses that change between like weeks of a block.
    blocks
        Blocks opened, and lengths other than the usual.
    rules
        Excess over rules with a price.
    """

    readiness: int
    bands: int
    amounts: int
    steadiness: int
    blocks: int
    rules: int

    @property
    def total(self) -> int:
        """Return the season cost."""
        return sum(getattr(self, each.name) for each in fields(self))


def season_cost(season: Season, rules: Sequence[Rule], plan: Plan, rates: Rates) -> Parts:
    """Return what a plan costs, part by part."""
    return Parts(
        readiness=sum(readiness_costs(season, plan, rates)),
        bands=_bands(season, plan, rates),
        amounts=_amounts(season, plan, rates) + _sessions(season, plan, rates),
        steadiness=_steadiness(season, plan, rates),
        blocks=_blocks(plan, rates),
        rules=_rules(season, rules, plan, rates),
    )


def readiness_costs(season: Season, plan: Plan, rates: Rates) -> list[int]:
    """Return what each week costs for being below its target; a closed week nothing."""
    found = []
    for week, ready in zip(season.weeks, whole_readiness(season, plan), strict=True):
        goal = round(week.target * UNITS) - round(rates.below * UNITS)
        short = 0 if week.closed else max(0, goal - ready)
        found.append(short * rates.week(week))
    return found


def whole_readiness(season: Season, plan: Plan) -> list[int]:
    """Return readiness by week in whole units, each choice's part rounded as rows have it."""
    tables, background = kernel(season).whole()
    return [
        int(background[week.index])
        + sum(
            int(tables[index][week.index - past, rung, plan.doses[index][past]])
            for index, row in enumerate(plan.rungs)
            for past, rung in enumerate(row[: week.index + 1])
            if rung is not None
        )
        for week in season.weeks
    ]


def _bands(season: Season, plan: Plan, rates: Rates) -> int:
    total = 0
    for quality, rungs, aims in zip(season.qualities, plan.rungs, season.emphasis, strict=True):
        for rung, aim in zip(rungs, aims, strict=True):
            if rung is not None:
                place = round(100 * rung / (len(quality.bands) - 1))
                off = round(max(0.0, abs(place - aim) - rates.tolerance))
                total += off * quality.weight
    return total * units(rates.band)


def _amounts(season: Season, plan: Plan, rates: Rates) -> int:
    whole = sum(quality.weight for quality in season.qualities)
    total = 0
    for quality, doses, aims in zip(season.qualities, plan.doses, wanted(season), strict=True):
        share = quality.weight * len(season.qualities) / whole
        for week, (dose, aim) in enumerate(zip(doses, aims, strict=True)):
            if not season.weeks[week].closed:
                off = max(0.0, abs(dose - aim) - rates.slack)
                off += rates.far * max(0.0, off - 1)
                total += units(rates.amount * share * off)
    return total


def _sessions(season: Season, plan: Plan, rates: Rates) -> int:
    few = 0
    for week in season.weeks:
        held = (plan.field[week.index], plan.gym[week.index])
        if not week.closed:
            pairs = zip(PLACES, held, sessions_wanted(season, week.index), strict=True)
            few += sum(
                max(0, aim - min(count, _pieces(season, plan, place, week.index)))
                for place, count, aim in pairs
            )
    return few * units(rates.session)


def _pieces(season: Season, plan: Plan, place: Place, week: int) -> int:
    """Return the sessions that a week's work can fill: more than a touch may be done in two."""
    return sum(
        min(2, row[week])
        for quality, row in zip(season.qualities, plan.doses, strict=True)
        if quality.place == place
    )


def _steadiness(season: Season, plan: Plan, rates: Rates) -> int:
    like = like_before(season)
    steps = sum(
        abs(int(row[week]) - int(row[week - 1]))
        for block in plan.blocks()
        # the first week of a block is lighter, so its second differs from it
        for week in block[2:]
        if like[week]
        for row in plan.doses
    )
    return steps * units(rates.change)


def _blocks(plan: Plan, rates: Rates) -> int:
    return sum(
        units(rates.block) + units(rates.odd_week) * abs(len(block) - rates.usual_block)
        for block in plan.blocks()
    )


def _rules(season: Season, rules: Sequence[Rule], plan: Plan, rates: Rates) -> int:
    paid = sum(
        rule.price * breach.excess
        for rule in rules
        if rule.price is not None
        for breach in rule.audit(plan, season)
    )
    return paid * units(rates.rule)
