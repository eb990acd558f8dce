"""Where the plans of groups differ."""

import datetime as dt
from collections.abc import Sequence

from optimiser.domain.document import SessionDayPart
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.groups.member import Member


def minutes_by_quality(season: Season, plan: Plan) -> dict[str, int]:
    """Return the minutes of work of a whole plan by quality."""
    return {
        quality.key: sum(
            quality.minutes(dose, rung) for dose, rung in zip(doses, rungs, strict=True)
        )
        for quality, doses, rungs in zip(season.qualities, plan.doses, plan.rungs, strict=True)
    }


def weeks_apart(members: Sequence[Member], plans: Sequence[Plan]) -> list[int]:
    """Return the weeks to come (from 0) in which not all groups that are there do the same."""
    both = list(zip(members, plans, strict=True))
    found = []
    for week in members[0].season.weeks[members[0].over :]:
        there = [plan for member, plan in both if member.absent <= week.index]
        if len({tuple(row[week.index] for row in plan.doses) for plan in there}) > 1:
            found.append(week.index)
    return found


def done_apart(groups: Sequence[Sequence[SessionDayPart]]) -> set[str]:
    """Return the qualities that not all groups work on in the same sessions of a week.

    Parameters
    ----------
    groups
        The days of one week's sessions, by group. A group that does less of a quality than others
        is with them if it does so in one of their sessions.
    """
    keys = {key for group in groups for part in group for key in part.work}
    return {key for key in keys if not _nested([_dates(group, key) for group in groups])}


def _dates(group: Sequence[SessionDayPart], key: str) -> set[dt.date]:
    return {part.date for part in group if key in part.work}


def _nested(dates: Sequence[set[dt.date]]) -> bool:
    most = max(dates, key=len)
    return all(each <= most for each in dates)
