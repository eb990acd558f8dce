"""What a plan costs, term by term; terms add up to the objectives exactly."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.objective import TENTH, Prices, emphasis_cost, readiness_by_week
from optimiser.rule import Rule

#: Name of the term for opening blocks, and what stands before a rule that is paid for.
BLOCKS, PAID = "blocks", "rule "


@dataclass(frozen=True)
class Terms:
    """A cost and what it is made of.

    Parameters
    ----------
    parts
        By name; they add up to ``total``.
    """

    parts: Mapping[str, int]

    @property
    def total(self) -> int:
        """Return the sum."""
        return sum(self.parts.values())

    def minus(self, other: "Terms") -> "Terms":
        """Return what this costs more, term by term; terms that are the same are left out."""
        names = list(dict.fromkeys([*self.parts, *other.parts]))
        gaps = {name: self.parts.get(name, 0) - other.parts.get(name, 0) for name in names}
        return Terms({name: gap for name, gap in gaps.items() if gap})


def emphasis_terms(season: Season, prices: Prices, plan: Plan, rules: Sequence[Rule]) -> Terms:
    """Return stage 1's cost of a plan: by quality's key, for its blocks, and paid for rules."""
    parts = {
        quality.key: sum(
            emphasis_cost(season, prices, index, week, rung)
            for week, rung in enumerate(plan.rungs[index])
            if rung is not None
        )
        for index, quality in enumerate(season.qualities)
    }
    return Terms(parts | {BLOCKS: prices.block * len(plan.blocks())} | _paid(season, plan, rules))


def readiness_terms(season: Season, prices: Prices, plan: Plan, rules: Sequence[Rule]) -> Terms:
    """Return stage 2's cost of a plan: by week (named from 1), and paid for rules."""
    by_week = readiness_by_week(season, prices, plan)
    parts = {f"week {number}": cost for number, cost in enumerate(by_week, 1)}
    return Terms(parts | _paid(season, plan, rules, TENTH))


def _paid(season: Season, plan: Plan, rules: Sequence[Rule], unit: int = 1) -> dict[str, int]:
    return {
        f"{PAID}{rule.name}": unit * rule.price * sum(b.excess for b in rule.audit(plan, season))
        for rule in rules
        if rule.price is not None
    }
