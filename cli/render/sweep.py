"""A swept grid as one table: text, CSV, plain data."""

from collections.abc import Sequence
from typing import Any

from cli.files.safe_cell import safe_csv
from cli.render.terminal import table_text
from cli.render.whatif import signed
from cli.render.words import one_digit, one_line
from optimiser.batch.row import PLANNED
from optimiser.change.side_by_side import totals
from optimiser.change.sweep import Swept
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.domain.wording import counted
from optimiser.review.rounding import kept_or_none
from optimiser.review.score import match_score

STATUS = {
    "proven": "proven",
    "within_gap": "within 1 %",
    "clash": "none: rules clash",
    "out_of_time": "none in time",
}


def sweep_text(season: Season, base: Plan, swept: Sequence[Swept], first: int = 0) -> str:
    """Return a row a point, in the order of the grid.

    Parameters
    ----------
    first
        First week (from 0) that is open, in a season in progress.
    """
    names = [name for name, _ in swept[0].point.values]
    heads = ["", *names, "plan", "match score", "high", "medium", "training, AU", "sessions", ""]
    was = match_score(season, base).score
    rows = [_row(season, each, was) for each in swept]
    table = table_text(rows, heads)
    clashes = sum(each.result.status == "clash" for each in swept)
    solved = sum(each.source is None for each in swept)
    lines = [
        f"{one_line(season.name, 80)}: {len(swept)} points, {solved} searched, the others follow",
        *open_from(season, first),
        "",
        table,
        "",
        "In brackets: against the plan as it stands. Points of one plan have the same best plan.",
    ]
    if clashes:
        lines.append(f"No plan keeps all rules at {counted(clashes, 'point')} (proven).")
    return "\n".join(lines)


def open_from(season: Season, first: int) -> list[str]:
    """Return a line on what stands, in a season in progress."""
    if not first:
        return []
    opens = season.weeks[first]
    return [f"What was done stands; open from week {opens.number} ({opens.monday}) on."]


def _row(season: Season, each: Swept, was: float | None) -> list[str]:
    data = row_data(season, each)
    score = data["match"]
    difference = "" if score is None or was is None else signed(score - was)
    note = "" if each.source is None else f"as point {each.source + 1}"
    return [
        str(each.index + 1),
        *(str(value) for _, value in each.point.values),
        _status(each),
        one_digit(score) + difference,
        one_digit(data["at_high"]),
        one_digit(data["at_medium"]),
        "-" if data["training"] is None else str(data["training"]),
        "-" if data["sessions"] is None else str(data["sessions"]),
        note,
    ]


def _status(each: Swept) -> str:
    gap = each.result.gap
    if each.result.status == "stopped" and gap is not None:
        return f"gap {100 * gap:.1f} %"
    return STATUS.get(each.result.status, each.result.status)


def row_data(season: Season, each: Swept) -> dict[str, Any]:
    """Return one point as plain data; scores 0-100, load in AU."""
    plan = each.result.plan if each.result.status in PLANNED else None
    score = None if plan is None else match_score(season, plan)
    sums = None if plan is None else totals(season, plan)
    return {
        "point": each.index + 1,
        **dict(each.point.values),
        "status": each.result.status,
        "gap": each.result.gap,
        "match": None if score is None else kept_or_none(score.score),
        "at_high": None if score is None else kept_or_none(score.at_high),
        "at_medium": None if score is None else kept_or_none(score.at_medium),
        "training": None if sums is None else sums.training,
        "sessions": None if sums is None else sums.field + sums.gym,
        "same_as": None if each.source is None else each.source + 1,
        "why_not": each.result.why_not,
    }


def sweep_csv(season: Season, swept: Sequence[Swept]) -> str:
    """Return a row a point as CSV."""
    rows = [row_data(season, each) for each in swept]
    return safe_csv(list(rows[0]), rows)


def sweep_data(season: Season, digest: str, base: Plan, swept: Sequence[Swept]) -> dict[str, Any]:
    """Return the whole table as plain data."""
    return {
        "format": "seasonwright.sweep/1",
        "scenario": {"name": season.name, "digest": digest},
        "base": {"match": kept_or_none(match_score(season, base).score)},
        "points": [row_data(season, each) for each in swept],
    }
