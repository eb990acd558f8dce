"""What may be said of a plan as a whole: the only judge of a season searched in one."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from optimiser.domain.document import SeasonPart
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.engine.search import Found
from optimiser.readiness import UNITS
from optimiser.rule import Rule
from optimiser.together.cost import Parts, season_cost
from optimiser.together.rates import Rates

DecidedBy = Literal["proof", "gap", "steps", "clock", "hand"]
#: Gap below which nothing a person could tell is left.
NOTHING = 1e-4
#: Gap up to which a plan counts as within the gap.
SMALL = 0.01


@dataclass(frozen=True)
class Verdict:
    """How good a plan is among all that keep the rules.

    Parameters
    ----------
    parts
        Worked out from the plan alone, in ten-thousandths of a readiness point.
    bound
        No plan that keeps the rules costs less.
    gap
        ``(cost - bound) / cost``; 0.01 is one per cent.
    decided_by
        What ended the search.
    """

    status: Literal["proven", "within_gap", "stopped"]
    parts: Parts
    bound: float
    gap: float
    decided_by: DecidedBy
    seconds: float

    @property
    def cost(self) -> int:
        """Return the season cost."""
        return self.parts.total


def judged(
    season: Season, rules: Sequence[Rule], plan: Plan, found: Found, rates: Rates, close: float
) -> Verdict:
    """Say what is proven of a plan.

    Proven is: nothing cheaper is left within a hundredth of a per cent, no rule that must hold is
    broken, and the cost worked out from the plan is the one the solver tells and not below the
    bound.

    Parameters
    ----------
    found
        The search, whose bound and cost are in the model's units.
    close
        Gap at which the search was to end.
    """
    parts = season_cost(season, rules, plan, rates)
    clean = not any(rule.audit(plan, season) for rule in rules if rule.price is None)
    agrees = found.objective == parts.total and found.bound <= parts.total
    gap = max(0.0, (parts.total - found.bound) / max(1, parts.total))
    sound = clean and agrees
    if sound and gap <= NOTHING:
        status: Literal["proven", "within_gap", "stopped"] = "proven"
    else:
        status = "within_gap" if sound and gap <= SMALL else "stopped"
    decided = _decided(status == "proven", gap <= close, found)
    return Verdict(status, parts, found.bound, gap, decided, found.seconds)


def told_before(season: SeasonPart) -> Found:
    """Return the search that a saved plan tells of, to be judged again with the plan as it is."""
    return Found(
        status="feasible",
        values=[],
        objective=round(season.cost * UNITS),
        bound=(season.bound or 0.0) * UNITS,
        seconds=season.seconds,
        deterministic=0.0,
        hit_wall=season.decided_by == "clock",
        cut_short=season.decided_by == "hand",
    )


def _decided(proven: bool, near: bool, found: Found) -> DecidedBy:
    if proven:
        return "proof"
    if found.cut_short:
        return "hand"
    if near:
        return "gap"
    return "clock" if found.hit_wall else "steps"
