"""Whether a plan is any good, in plain words: for the top of the table."""

import textwrap
from collections import Counter
from collections.abc import Collection, Sequence
from statistics import mean

from optimiser.domain.document import PlanDocument, WeekPart
from optimiser.domain.fixture import Priority
from optimiser.explain.limits import Limit

WIDTH = 100
#: Shares of the target that readiness reaches at the matches that matter. Engineering choices.
GOOD, FAIR = 0.95, 0.85
#: Points that matches cost, and share of the weeks without room, from which they are the reason.
COSTLY, CROWDED = 10.0, 0.2
#: Changes that are named.
MOST = 2


def plain_verdict(
    document: PlanDocument, found: Sequence[Limit], scenario: str, safe: Collection[str]
) -> str:
    """Return one word on the plan, and of one that is not good why, and what would help most.

    Parameters
    ----------
    found
        What limits the plan, worst week first.
    scenario
        Its file, for the command that says more.
    safe
        Rules that keep people safe: nobody is told to loosen one.
    """
    weeks = _that_matter(document)
    if not weeks:
        return ""
    share = mean(min(1.0, max(0.0, week.readiness) / max(1.0, week.target)) for week in weeks)
    if share >= GOOD:
        return ""
    worst = min(weeks, key=lambda week: week.readiness / max(1.0, week.target))
    said = "A fair plan" if share >= FAIR else "A POOR PLAN"
    head = (
        f"{said}: planned readiness reaches {100 * share:.0f} % of its target at the matches that "
        f"matter most, and {worst.readiness:.0f} of {worst.target:.0f} in week {worst.week}."
    )
    helps = _helps(document, found, safe)
    ask = f"`seasonwright prices {scenario}` says what each rule costs."
    return textwrap.fill(" ".join([head, *_reasons(document, found), *helps, ask]), WIDTH)


def _that_matter(document: PlanDocument) -> list[WeekPart]:
    """Return the weeks with a match of the highest priority there is."""
    for priority in Priority:
        weeks = [
            week
            for week in document.weeks
            if any(match.priority == priority for match in week.fixtures)
        ]
        if weeks:
            return weeks
    return []


def _reasons(document: PlanDocument, found: Sequence[Limit]) -> list[str]:
    told = []
    crowded = _without_room(document)
    if len(crowded) >= CROWDED * len(document.weeks):
        told.append(
            f"In {len(crowded)} of {len(document.weeks)} weeks matches or breaks leave no room to "
            "train all qualities."
        )
    cost = max((limit.match_cost for limit in found), default=0.0)
    if cost >= COSTLY:
        told.append(f"Matches and travel just before cost up to {cost:.0f} points.")
    return told


def _without_room(document: PlanDocument) -> set[int]:
    given = [each for each in document.waivers if each.qualities and each.weeks]
    return {week for each in given for week in each.weeks}


def _helps(document: PlanDocument, found: Sequence[Limit], safe: Collection[str]) -> list[str]:
    crowded = sorted(_without_room(document))
    helps = []
    if len(crowded) >= CROWDED * len(document.weeks):
        helps.append(f"fewer matches in weeks {crowded[0]}-{crowded[-1]}")
    stopped: Counter[str] = Counter()
    for limit in found:
        stopped.update(dict(limit.stopped_by))
    wishes = [rule for rule, _ in stopped.most_common() if rule not in safe]
    named = [*helps, *(f"a looser {rule} rule" for rule in wishes)][:MOST]
    if not named:
        return ["Only rules that keep people safe stand in the way." if stopped else ""]
    return [f"What would help most: {', or '.join(named)}."]
