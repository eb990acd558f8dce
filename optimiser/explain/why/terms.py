"""What a plan costs, term by term; terms add up to the season cost exactly."""

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass

from optimiser.domain.plan import Plan
from optimiser.domain.rates import Rates
from optimiser.domain.season import Season
from optimiser.joint_model.cost import readiness_costs, season_cost
from optimiser.rule import Rule

#: The part that is told by week.
READINESS = "readiness"


@dataclass(frozen=True)
class Terms:
    """A cost and what it is made of, in ten-thousandths of a readiness point.

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


def cost_terms(season: Season, rules: Sequence[Rule], plan: Plan, rates: Rates) -> Terms:
    """Return the season cost of a plan: readiness by week (named from 1), the other parts whole."""
    parts = asdict(season_cost(season, rules, plan, rates))
    del parts[READINESS]
    by_week = readiness_costs(season, plan, rates)
    weeks = {f"{READINESS} in week {number}": cost for number, cost in enumerate(by_week, 1)}
    return Terms(weeks | parts)
