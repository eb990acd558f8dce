"""The rules as one group has to keep them."""

from collections.abc import Sequence
from typing import Final

from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.rule import Rule, Waiver

#: Rules that ask how bands came about, which the shared season answers for.
OF_HISTORY: Final = ("foundation", "revisit")
#: Limits on the bands and the block a group joins in, by rule.
ON_JOINING: Final = {"blocks": "length", "reentry": "rung"}
#: More than any ladder has rungs and any block weeks.
ALL: Final = 12


def rules_after(rules: Sequence[Rule], season: Season, absent: int) -> list[Rule]:
    """Return the rules of a group that is away for the first ``absent`` weeks.

    Its bands are those of the shared season from where that stands when the group joins. Re-entry
    holds for it all the same: its volume in the group's own doses, its rungs on every athlete's
    card, which climbs from the rule's rung by one a week whatever the shared bands are. So limits
    on bands give way in the plan in that week, and choices pinned before it are none of the
    group's. `let_off` says what that comes to.

    Parameters
    ----------
    season
        The group's own.
    """
    if not absent:
        return list(rules)
    first = next((week.number for week in season.weeks if not week.closed), len(season.weeks))
    return [_after(rule, first, absent) for rule in rules if rule.name not in OF_HISTORY]


def let_off(
    rules: Sequence[Rule], kept: Sequence[Rule], plan: Plan, season: Season
) -> list[Breach]:
    """Return what a group's plan would break of the rules as they stand for everybody.

    Parameters
    ----------
    rules, kept
        Of everybody, and those of the group.
    season
        The group's own.
    """
    told = [breach for rule in kept for breach in rule.audit(plan, season)]
    found = [breach for rule in rules for breach in rule.audit(plan, season)]
    return [breach for breach in found if breach not in told]


def _after(rule: Rule, first: int, absent: int) -> Rule:
    added: list[Waiver] = []
    if rule.name in ON_JOINING:
        added = [Waiver(week=first, part=ON_JOINING[rule.name], by=ALL)]
    elif rule.name == "pin":
        added = [Waiver(week=week) for week in range(1, absent + 1)]
    return rule.model_copy(update={"waive": (*rule.waive, *added)})
