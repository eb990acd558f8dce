"""The most load the rule `load_ramp` leaves each week."""

from collections.abc import Sequence
from fractions import Fraction
from math import ceil, floor

from constraints.load_ramp import LoadRamp
from optimiser.domain.document import PlanDocument
from optimiser.domain.week_number import index_of
from optimiser.rule import Rule


def ramp_limits(document: PlanDocument, rules: Sequence[Rule]) -> list[int | None]:
    """Return the most total load of each week, in AU; None where nothing limits it."""
    rule = next((each for each in rules if isinstance(each, LoadRamp)), None)
    limits: list[int | None] = []
    recent: list[tuple[int, int]] = []
    for week in document.weeks:
        fixed = week.load.practice + week.load.matches
        if rule is None or week.block is None:
            limits.append(None)
            continue
        limits.append(_limit(rule, recent, fixed, index_of(week.week)) if recent else None)
        recent = [*recent, (week.load.training, fixed)][-4:]
    return limits


def _limit(rule: LoadRamp, recent: Sequence[tuple[int, int]], here: int, week: int) -> int:
    factor = Fraction(100 + rule.percent, 100 * len(recent))
    own = factor * sum(mine for mine, _ in recent)
    others = factor * sum(fixed for _, fixed in recent)
    credit = max(0, ceil(here + rule.floor - others - rule.allowance))
    return floor(own + others + rule.allowance + credit + rule.free(week))
