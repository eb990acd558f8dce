"""What may be said of a plan: the only judge of a season, for every command."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, fields
from typing import Literal

from optimiser.domain.document import SeasonPart
from optimiser.domain.plan import Plan
from optimiser.domain.rates import Rates
from optimiser.domain.season import Season
from optimiser.engine.cp_sat_search import Found
from optimiser.joint_model.cost import Parts, season_cost
from optimiser.response.readiness import UNITS
from optimiser.review.audit import Place, keeps
from optimiser.rule import Rule

DecidedBy = Literal["proof", "gap", "steps", "clock", "hand"]
ProofStatus = Literal["proven", "within_gap", "stopped"]
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
    changes
        What is charged on top for each choice that differs from another plan, so that of plans as
        good the nearest is found; cost and changes together are what ``bound`` speaks of.
    confirmed
        Whether another solver came to the same end; None if it was not asked or did not end.
    """

    status: ProofStatus
    parts: Parts
    bound: float
    gap: float
    decided_by: DecidedBy
    seconds: float
    changes: int = 0
    confirmed: bool | None = None

    @property
    def cost(self) -> int:
        """Return the season cost."""
        return self.parts.total


def judged(
    season: Season,
    rules: Sequence[Rule],
    plan: Plan,
    found: Found,
    rates: Rates,
    close: float,
    *,
    changes: int = 0,
    excused: Collection[Place] = (),
    first: int = 0,
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
    changes
        What is charged on top for being another plan than some other.
    excused
        Rule, week and quality of breaches that history alone has made.
    first
        First week that is open: what weeks before it break takes nothing from what is proven.
    """
    parts = season_cost(season, rules, plan, rates)
    clean = keeps(season, rules, plan, excused, first)
    return _verdict(parts, found, close, changes=changes, clean=clean)


def judged_together(
    parts: Sequence[tuple[Parts, int]], found: Found, close: float, *, clean: bool, changes: int = 0
) -> Verdict:
    """Say what is proven of several plans that are searched as one.

    Parameters
    ----------
    parts
        What each plan costs, and how much that counts.
    clean
        Whether all of them keep their rules.
    changes
        What is charged on top for being other plans than those so far.
    """
    names = [each.name for each in fields(Parts)]
    added = {n: sum(weight * getattr(part, n) for part, weight in parts) for n in names}
    return _verdict(Parts(**added), found, close, changes=changes, clean=clean)


def _verdict(parts: Parts, found: Found, close: float, *, changes: int, clean: bool) -> Verdict:
    cost = parts.total + changes
    agrees = found.objective == cost and found.bound <= cost and found.confirmed is not False
    sound = clean and agrees
    gap = max(0.0, (cost - found.bound) / max(1, cost))
    if sound and gap <= NOTHING:
        status: ProofStatus = "proven"
    else:
        status = "within_gap" if sound and gap <= SMALL else "stopped"
    decided = _decided(status == "proven", gap <= close, found)
    return Verdict(
        status, parts, found.bound, gap, decided, found.seconds, changes, found.confirmed
    )


def told_before(season: SeasonPart) -> Found:
    """Return the search that a saved plan tells of, to be judged again with the plan as it is."""
    return Found(
        status="feasible",
        values=[],
        objective=round(season.cost * UNITS) + round(season.changes * UNITS),
        bound=(season.bound or 0.0) * UNITS,
        seconds=season.seconds,
        deterministic=0.0,
        hit_wall=season.decided_by == "clock",
        cut_short=season.decided_by == "hand",
        confirmed=season.confirmed,
    )


def _decided(proven: bool, near: bool, found: Found) -> DecidedBy:
    if proven:
        return "proof"
    if found.cut_short:
        return "hand"
    if near:
        return "gap"
    return "clock" if found.hit_wall else "steps"
