"""Where the plans of groups differ."""

from collections.abc import Sequence

from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.groups.member import Member


def minutes_by_quality(season: Season, plan: Plan) -> dict[str, int]:
    """Return the minutes of work of a whole plan by quality."""
    return {
        quality.key: sum(quality.minutes(dose) for dose in row)
        for quality, row in zip(season.qualities, plan.doses, strict=True)
    }


def weeks_apart(members: Sequence[Member], plans: Sequence[Plan]) -> list[int]:
    """Return the weeks (from 0) in which not all groups that are there do the same."""
    both = list(zip(members, plans, strict=True))
    found = []
    for week in members[0].season.weeks:
        there = [plan for member, plan in both if member.absent <= week.index]
        if len({tuple(row[week.index] for row in plan.doses) for plan in there}) > 1:
            found.append(week.index)
    return found
