"""What an audit found, as text and as plain data."""

from collections.abc import Sequence
from typing import Any

from cli.render.audit_verdict import Broken, breach_lines, verdict_text
from cli.render.plan_table import match_line
from cli.render.proof import proof_line
from cli.render.words import one_line
from optimiser.domain.breach import Breach
from optimiser.domain.document import PlanDocument
from optimiser.domain.fixture import Priority
from optimiser.review.describe import breach_part
from optimiser.review.rounding import kept

LET_OFF = "Waived, as the group joins in the middle of the season:"

#: Points of match score that nobody sees.
ALIKE = 0.05


def audit_text(
    name: str,
    told: PlanDocument,
    best: PlanDocument | None,
    found: Broken,
    costs: tuple[float, float] | None = None,
    waived: Sequence[Breach] = (),
) -> str:
    """Return what is wrong with a plan, then its score and how far it is from the best.

    Parameters
    ----------
    name
        Of the plan's file.
    best
        The best plan of the same season; None if it was not looked for or not found.
    found
        Its breaches, by what they mean.
    costs
        Season cost of both, in readiness points.
    waived
        What the group of the plan is let off.
    """
    head = f"{one_line(name)}, for {one_line(told.scenario.name, 80)}"
    parts = [f"{head}\n{verdict_text(told, best, found)}"]
    lines = breach_lines(found)
    parts += ["\n".join(lines)] if lines else []
    parts += [*_waived(waived), match_line(told)]
    if best is not None:
        parts.append(_compared(told, best))
    if costs is not None:
        parts.append(
            f"By the season cost, which `plan` brings down, this plan costs {costs[0]:.1f} points "
            f"and ours\n{costs[1]:.1f}; less is better."
        )
    return "\n\n".join(parts)


def _waived(waived: Sequence[Breach]) -> list[str]:
    """Say what a group is let off."""
    if not waived:
        return []
    lines = [f"  {breach.rule}: {one_line(breach.words)}" for breach in waived]
    return ["\n".join([LET_OFF, *lines])]


def _compared(told: PlanDocument, best: PlanDocument) -> str:
    behind = (best.match.score or 0) - (told.match.score or 0)
    more = f"{behind:.1f} better" if behind > 0 else f"{-behind:.1f} worse"
    more = "as good as this one" if abs(behind) < ALIKE else more
    lines = [
        f"Our plan for the season is {more}. {match_line(best)}",
        *([proof_line(best.season)] if best.season else []),
    ]
    rows = _matches(told, best)
    if rows:
        lines += ["Planned readiness at the high and medium matches, here and in our plan:", *rows]
    return "\n".join(lines)


def _matches(told: PlanDocument, best: PlanDocument) -> list[str]:
    return [
        f"  {fixture.date}  {fixture.priority.value:<6}  week {here.week:>2}  "
        f"{here.readiness:5.1f}  {there.readiness:5.1f}  target {there.target:.0f}"
        for here, there in zip(told.weeks, best.weeks, strict=True)
        for fixture in there.fixtures
        if fixture.priority is not Priority.LOW
    ]


def audit_data(
    told: PlanDocument,
    best: PlanDocument | None,
    found: Broken,
    waived: Sequence[Breach] = (),
) -> dict[str, Any]:
    """Return the same as plain data: the plan's document and, in short, the best one's."""
    worst = found.worst
    score = told.match.score or 0
    return {
        "format": "seasonwright.audit/1",
        "verdict": {
            "usable": found.usable,
            "safety": len(found.safety),
            "must_hold": len(found.held),
            "paid_for": len(found.paid),
            "worst": None if worst is None else breach_part(worst).model_dump(mode="json"),
        },
        "plan": told.model_dump(mode="json"),
        "waived": [breach.model_dump(mode="json") for breach in waived],
        "best": None
        if best is None
        else {
            **best.model_dump(mode="json", include={"status", "season", "match"}),
            "ahead": kept((best.match.score or 0) - score),
        },
    }
