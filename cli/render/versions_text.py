"""Versions of a season folder, listed and compared."""

from collections.abc import Sequence
from pathlib import PurePosixPath

from pydantic import ValidationError

from cli.render.terminal import hanging, table_text
from cli.render.words import one_line
from cli.season.difference import difference
from cli.season.folder import GROUP_PLANS, PLAN
from cli.season.history import State, Version
from optimiser.domain.document import PlanDocument, WeekPart

HEADS = ("", "version", "when (UTC)", "what", "", "name")
WIDEST = 44
PLANS = (PLAN, *GROUP_PLANS)
#: Weeks of a difference between plans told one by one.
MOST_WEEKS = 12


def versions_text(versions: Sequence[Version], current: int | None) -> str:
    """Return the list of versions."""
    rows = [
        [
            ">" if each.id == current else "",
            str(each.id),
            each.at[:16].replace("T", " "),
            each.action,
            one_line(each.words, 120),
            one_line(each.name, 40),
        ]
        for each in versions
    ]
    return table_text(rows, HEADS, widths=[None, None, None, None, WIDEST, 24])


def compared_text(one: Version, other: Version, before: State, after: State) -> str:
    """Return what is different between two versions, the plan in words and other files by line."""
    names = [name for name in after if before.get(name) != after[name]]
    parts = [f"From version {one.id} ({one.action}) to version {other.id} ({other.action}):"]
    if not names:
        parts.append("Nothing is different.")
    for name in names:
        told = _plans(name, before.get(name), after[name]) if name in PLANS else ""
        parts.append(told or difference(name, before.get(name), after[name]))
    return "\n\n".join(parts)


def _plans(name: str, before: bytes | None, after: bytes | None) -> str:
    """Return the weeks in which two plans differ; nothing if one of them is no plan."""
    try:
        was, now = (PlanDocument.model_validate_json(data or b"") for data in (before, after))
    except ValidationError:
        return ""
    pairs = zip(was.weeks, now.weeks, strict=False)
    lines = [told for one, other in pairs if (told := _week(one, other))]
    score = f"Match score {was.match.score or 0:.1f} -> {now.match.score or 0:.1f}."
    more = len(lines) - MOST_WEEKS
    shown = [*lines[:MOST_WEEKS], *([f"- and {more} more weeks"] if more > 0 else [])]
    whose = "The plan" if name == PLAN else f"The plan of {PurePosixPath(name).stem}"
    return "\n".join([f"{whose}: {score}", *(shown or ["- the same choices in every week"])])


def _week(was: WeekPart, now: WeekPart) -> str:
    told = [
        f"{key} {_cell(part.band, part.dose)} -> {_cell(there.band, there.dose)}"
        for key, there in now.qualities.items()
        if (part := was.qualities.get(key)) is not None
        and _cell(part.band, part.dose) != _cell(there.band, there.dose)
    ]
    if was.sessions != now.sessions:
        told.append(
            f"sessions {was.sessions.field} field {was.sessions.gym} gym -> "
            f"{now.sessions.field} field {now.sessions.gym} gym"
        )
    if not told:
        return ""
    line = f"- Week {now.week} ({now.monday}): {'; '.join(told)}"
    return hanging(line)


def _cell(band: str | None, dose: str) -> str:
    return "nothing" if band is None or dose == "none" else f"{band} {dose}"
