"""The weeks on the page: what each is, plans, aims at and was."""

from typing import Any

from cli.render.clean_text import clean
from cli.render.pictures.ramp import ramp_limits
from cli.serve.side import SeasonSide
from optimiser.domain.document import WeekPart
from optimiser.domain.fixture import Break
from optimiser.domain.season import Week


def weeks(
    here: SeasonSide, shown: SeasonSide, base: SeasonSide, *, changed: bool
) -> list[dict[str, Any]]:
    """Return the weeks of the season as it is, with the plan that is shown.

    Parameters
    ----------
    here
        The season as it is; its plan may still be looked for.
    shown
        The side whose plan is shown.
    base
        The season on file.
    """
    told = shown.document.weeks if shown.document else ()
    was = base.document.weeks if base.document and changed else ()
    limits = ramp_limits(shown.document, shown.rules) if shown.document else ()
    found = []
    for week in here.season.weeks:
        part = told[week.index] if told else None
        row = _calendar(week, here.over) | (_planned(part) if part else {"planned": False})
        row["was"] = round(was[week.index].readiness, 1) if was else None
        row["limit"] = limits[week.index] if limits else None
        row["touched"] = _touched(week, base)
        found.append(row)
    return found


def _calendar(week: Week, over: int) -> dict[str, Any]:
    return {
        "number": week.number,
        "monday": week.monday.isoformat(),
        "phase": week.phase.value,
        "closed": week.closed,
        "breaks": [_break(item) for item in week.breaks],
        "target": round(week.target),
        "over": week.index < over,
        "matches": len(week.fixtures),
    }


def _break(item: Break) -> dict[str, Any]:
    return {
        "first": item.first.isoformat(),
        "last": item.last.isoformat(),
        "kind": item.kind,
        "note": clean(item.note),
        "sessions": item.sessions,
    }


def _planned(part: WeekPart) -> dict[str, Any]:
    done = part.done
    return {
        "planned": True,
        "ready": round(part.readiness, 1),
        "block": part.block,
        "block_week": part.block_week,
        "deload": part.deload,
        "taper": part.taper,
        "retest": [day.isoformat() for day in part.retest],
        "load": part.load.model_dump(),
        "sessions": part.sessions.model_dump(),
        "done": None
        if done is None
        else {
            "recorded": done.recorded,
            "load": done.planned_load,
            "ready": round(done.planned_readiness, 1),
        },
    }


def _touched(week: Week, base: SeasonSide) -> bool:
    """Tell whether the calendar of a week is another than on file."""
    before = base.season.weeks[week.index]
    return (before.fixtures, before.breaks, before.closed) != (
        week.fixtures, week.breaks, week.closed,
    )  # fmt: skip
