"""A shared plan and its branches, as text and as plain data."""

from dataclasses import dataclass
from typing import Any

from cli.files.scenario_file import Loaded
from cli.render.cell_words import changed_week_words
from cli.render.plan_table import plan_table
from cli.render.signs import Signs
from cli.render.terminal import bullet, filled, table_text
from cli.render.words import one_line
from optimiser.change.robust import Branch, Hedged
from optimiser.change.side_by_side import week_rows
from optimiser.domain.document import PlanDocument
from optimiser.domain.week_number import number_of
from optimiser.review.rounding import kept


@dataclass(frozen=True)
class ToldBranch:
    """A shared plan with the document of each branch, in order."""

    found: Hedged
    documents: tuple[PlanDocument, ...]


def hedge_text(told: ToldBranch, signs: Signs) -> str:
    """Return what hedging costs, the shared weeks, and how the branches differ."""
    found = told.found
    likeliest = max(range(len(found.branches)), key=lambda i: found.branches[i].future.share)
    parts = [_table(found), _summary(found)]
    if found.branch_week > found.branches[likeliest].future.over:
        future = found.branches[likeliest].future
        document = told.documents[likeliest]
        parts += [
            f"Shared weeks, with the targets of {one_line(found.branches[likeliest].future.name)}:",
            plan_table(
                document, future.season, signs, first=future.over + 1, last=found.branch_week
            ),
        ]
    parts += [
        _against(found, branch, likeliest)
        for number, branch in enumerate(found.branches)
        if number != likeliest
    ]
    return "\n\n".join(parts)


def _table(found: Hedged) -> str:
    heads = ["Future", "weight", "match score", "planned alone", "price of hedging", "ceiling"]
    rows = [
        [
            one_line(branch.future.name, 40),
            f"{100 * branch.future.share:.0f} %",
            f"{branch.match:.1f}",
            f"{branch.alone:.1f}",
            f"{round(branch.alone - branch.match, 1) or 0.0:.1f}",
            f"{branch.ceiling:.1f}",
        ]
        for branch in found.branches
    ]
    return table_text(rows, heads)


def _summary(found: Hedged) -> str:
    aim = "Weighted mean" if found.aim == "weighted" else "Worst case"
    tried, legal = found.tried
    week = found.branch_week
    shared = f"Weeks 1-{week} are shared" if week else "No week is shared"
    if week == 1:
        shared = "Week 1 is shared"
    text = (
        f"{shared}; they come from {one_line(found.source)}, the best of {legal} that every "
        f"future can keep ({tried} tried). {aim} of the match scores: {found.value:.1f}; no plan, "
        f"shared or not, exceeds {found.bound:.1f} (proven), so the gap is at most "
        f"{100 * found.gap:.1f} %. A price below 0 is within the gaps of the searches."
    )
    return filled(text)


def _against(found: Hedged, branch: Branch, likeliest: int) -> str:
    other = found.branches[likeliest]
    rows = week_rows(other.plan, branch.plan, found.branch_week)
    name, against = one_line(branch.future.name), one_line(other.future.name)
    head = f"{name}: from week {number_of(found.branch_week)} on, against {against}"
    lines = [bullet(changed_week_words(branch.future.season, row)) for row in rows]
    return "\n".join([head, *(lines or ["- nothing differs"])])


def hedge_data(loaded: Loaded, told: ToldBranch) -> dict[str, Any]:
    """Return the same as plain data, with the whole plan of each branch."""
    found = told.found
    return {
        "format": "seasonwright.futures/1",
        "scenario": {"name": loaded.season.name, "digest": loaded.digest},
        "aim": found.aim,
        "branch_week": number_of(found.branch_week),
        "source": found.source,
        "value": kept(found.value),
        "bound": kept(found.bound),
        "gap": round(found.gap, 4),
        "tried": found.tried[0],
        "legal": found.tried[1],
        "seconds": round(found.seconds, 2),
        "branches": [
            {
                "name": branch.future.name,
                "weight": round(branch.future.share, 4),
                "match": kept(branch.match),
                "alone": kept(branch.alone),
                "price": kept(branch.alone - branch.match),
                "ceiling": kept(branch.ceiling),
                "plan": document.model_dump(mode="json"),
            }
            for branch, document in zip(found.branches, told.documents, strict=True)
        ],
    }
