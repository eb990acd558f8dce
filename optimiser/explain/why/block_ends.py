"""Why a block ends where it does: what one week more or less would break or change."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.rates import Rates
from optimiser.domain.season import Season
from optimiser.explain.why.at_matches import FixtureChange, match_changes
from optimiser.joint_model.cost import season_cost
from optimiser.review.audit import audit_plan
from optimiser.rule import Rule


@dataclass(frozen=True)
class OtherEnd:
    """A block that ends one week later or earlier, all else as it is.

    Parameters
    ----------
    weeks
        1 for a week more, -1 for a week less.
    breaches
        What it breaks that the plan keeps.
    emphasis
        How much further from the emphasis wanted; below 0 if nearer.
    """

    weeks: int
    breaches: tuple[Breach, ...]
    emphasis: int
    matches: tuple[FixtureChange, ...]


def other_ends(season: Season, plan: Plan, rules: Sequence[Rule], block: range) -> list[OtherEnd]:
    """Return the block one week longer and one week shorter, where it meets another block."""
    return [
        _looked(season, plan, rules, other, more)
        for more in (1, -1)
        if (other := _moved(plan, block, more)) is not None
    ]


def _moved(plan: Plan, block: range, more: int) -> Plan | None:
    """Return the plan with the border after a block moved by a week; None if it cannot be."""
    stop = block.stop
    if stop >= plan.weeks or stop not in plan.starts or (more < 0 and len(block) < 2):
        return None
    here, source = (stop, stop - 1) if more > 0 else (stop - 1, stop)
    rungs = [[*row[:here], row[source], *row[here + 1 :]] for row in plan.rungs]
    starts = {week for week in plan.starts if week != stop}
    if stop + more < plan.weeks and (more < 0 or stop + 1 not in plan.starts):
        starts.add(stop + more)
    if any(row[week] is None for row in rungs for week in (here, source)):
        return None
    update = {"starts": tuple(sorted(starts)), "rungs": tuple(map(tuple, rungs))}
    return plan.model_copy(update=update)


def _looked(season: Season, plan: Plan, rules: Sequence[Rule], other: Plan, more: int) -> OtherEnd:
    priced = {rule.name for rule in rules if rule.price is not None}
    before = Counter(_place(breach) for breach in audit_plan(season, plan, rules))
    new = [
        breach
        for breach in audit_plan(season, other, rules)
        if breach.rule not in priced and not before[_place(breach)]
    ]
    was, now = (season_cost(season, rules, each, Rates()).bands for each in (plan, other))
    return OtherEnd(more, tuple(new), now - was, match_changes(season, plan, other))


def _place(breach: Breach) -> tuple[str, int | None, str | None, str]:
    return breach.rule, breach.week, breach.quality, breach.part
