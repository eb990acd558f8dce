"""What a plan gives up and what its calendar leaves no room for, as notes of a report."""

from cli.render.given_up import alike
from cli.report.report import Note
from optimiser.domain.document import ConcessionPart, PlanDocument

CONCEDED = (
    "The rules clash, and no plan keeps them all. This is the nearest one; here is what gives way. "
    "What keeps people safe is given up last, and only with a reason."
)
WAIVED = (
    "Matches, breaks or phases leave no room for this, so the rules do not ask it. Without the "
    "matches named it would be asked."
)


def given_up_notes(document: PlanDocument) -> list[Note]:
    """Return a note of the concessions and one of the waivers, each if there are some."""
    found = []
    if document.concessions:
        rows = tuple(map(_conceded, alike(document.concessions)))
        found.append(Note("What this plan gives up", CONCEDED, ("What", "Rule", "Safety"), rows))
    if document.waivers:
        heads = ("What", "Rule", "Matches")
        told = tuple((w.words, w.rule, _dates(len(w.fixtures))) for w in document.waivers)
        found.append(Note("What this calendar has no room for", WAIVED, heads, told))
    return found


def _conceded(each: ConcessionPart) -> tuple[str, ...]:
    return each.words, each.rule, "keeps people safe" if each.safety else ""


def _dates(count: int) -> str:
    return f"{count} match day{'' if count == 1 else 's'}" if count else "breaks or phases"
