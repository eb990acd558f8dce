"""The rules as one group has to keep them."""

from collections.abc import Sequence

from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.rule import Rule


def rules_after(rules: Sequence[Rule], season: Season, absent: int) -> list[Rule]:
    """Return the rules of a group that is away for the first ``absent`` weeks.

    Its bands are its own, and what holds for anybody after time off holds for it: it restarts at
    the rung that `reentry` has, and climbs from block to block to the shared bands. The block that
    it joins in is the rest of a shared one and may be short; bands that are pinned are the
    squad's, and choices pinned before it joins are none of the group's; and one part of a season
    need not go back to general bands. `let_off` says what that comes to.

    Parameters
    ----------
    season
        The group's own.
    """
    if not absent:
        return list(rules)
    first = next((week.number for week in season.weeks if not week.closed), len(season.weeks))
    kept = [rule.on_joining(first, absent) for rule in rules]
    return [rule for rule in kept if rule is not None]


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
