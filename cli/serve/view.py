"""What the page shows, as plain data."""

import datetime as dt
from collections.abc import Sequence
from typing import Any

from cli.render.cell_words import week_words
from cli.render.clean_text import clean
from cli.render.pictures.theme import ladder_colour, text_on
from cli.render.proof import proof
from cli.serve.edit_words import edit_words
from cli.serve.session import Session, Side
from optimiser.describe import season_part
from optimiser.domain.fixture import Fixture, Priority
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season, Week
from optimiser.rule import Rule
from optimiser.score import match_score, readiness, training_load
from optimiser.whatif.compare import Difference, compare

SIGNS = {
    Priority.PEAK: "\u2605",
    Priority.HIGH: "\u25c6",
    Priority.MEDIUM: "\u25b2",
    Priority.LOW: "\u25cb",
}
SCORES = (
    ("score", "Match score"),
    ("at_high", "At high fixtures"),
    ("at_medium", "At medium fixtures"),
    ("at_low", "At low fixtures"),
)
#: Parameters every rule has that are not its own.
NOT_OWN = ("price", "waive")


def page_state(session: Session) -> dict[str, Any]:
    """Return the whole state of a session."""
    with session.lock:
        progress = session.solver.progress()
        base, here = session.base, session.here
        shown = here.plan or base.plan
        found = _difference(session)
        return {
            "version": session.version,
            "name": clean(here.loaded.season.name),
            "first": here.loaded.season.weeks[0].monday.isoformat(),
            "solving": None if progress is None else _progress(*progress, first=base.plan is None),
            "told": session.told,
            "stale": here.plan is None,
            "proof": _proof(here),
            "weeks": _weeks(here.loaded.season, shown, base),
            "fixtures": [
                _fixture(here.loaded.season, base, f) for f in here.loaded.season.fixtures
            ],
            "qualities": _qualities(here.loaded.season, shown, base),
            "scores": _scores(base, here),
            "peaks": _peaks(found),
            "changes": _changes(here.loaded.season, found),
            "edits": [edit_words(edit) for edit in session.edits],
            "rules": [_rule(rule) for rule in here.rules],
            "can_save": here.plan is not None and progress is None,
            "files": [path.name for path in session.files],
        }


def progress_state(session: Session) -> dict[str, Any]:
    """Return only how far the search is, which is asked for often."""
    progress = session.solver.progress()
    first = session.base.plan is None
    told = None if progress is None else _progress(*progress, first=first)
    return {"version": session.version, "solving": told}


def _progress(seconds: float, words: str, *, first: bool) -> dict[str, Any]:
    usual = "Looking for the best plan" if first else "Looking for the best plan near the old one"
    return {"seconds": round(seconds, 1), "words": words or usual}


def _difference(session: Session) -> Difference | None:
    base, here, changed = session.base, session.here, session.changed
    if base.plan is None or here.plan is None or changed is None:
        return None
    before, after = (base.loaded.season, base.plan), (here.loaded.season, here.plan)
    return compare(before, after, changed.pairs)


def _proof(side: Side) -> str:
    return "" if side.verdict is None else proof(season_part(side.verdict))


# --- weeks ----------------------------------------------------------------------------------


def _weeks(season: Season, plan: Plan | None, base: Side) -> list[dict[str, Any]]:
    now = _ready(season, plan)
    was = _ready(base.loaded.season, base.plan)
    return [_week(season, week, plan, now, was) for week in season.weeks]


def _ready(season: Season, plan: Plan | None) -> Sequence[float]:
    return readiness(season, plan)[0] if plan else ()


def _week(
    season: Season, week: Week, plan: Plan | None, now: Sequence[float], was: Sequence[float]
) -> dict[str, Any]:
    own = training_load(season, plan, week.index) if plan else 0
    return {
        "number": week.number,
        "monday": week.monday.isoformat(),
        "label": f"{week.monday.day} {week.monday:%b}",
        "phase": week.phase.value,
        "closed": week.closed,
        "breaks": [
            [item.first.isoformat(), item.last.isoformat(), item.kind] for item in week.breaks
        ],
        "target": round(week.target),
        "ready": round(now[week.index], 1) if now else None,
        "was": round(was[week.index], 1) if was else None,
        "load": own + week.fixed_load,
    }


def _qualities(season: Season, plan: Plan | None, base: Side) -> list[dict[str, Any]]:
    return [
        {
            "name": clean(quality.name),
            "cells": [_cell(season, plan, base.plan, index, week.index) for week in season.weeks],
        }
        for index, quality in enumerate(season.qualities)
    ]


def _cell(
    season: Season, plan: Plan | None, old: Plan | None, quality: int, week: int
) -> dict[str, Any]:
    now = _choice(season, plan, quality, week)
    was = _choice(season, old, quality, week)
    return now | {"was": "" if was == now else f"{was['code']} {was['dose']}".strip() or "nothing"}


def _choice(season: Season, plan: Plan | None, quality: int, week: int) -> dict[str, str]:
    rung = None if plan is None else plan.rungs[quality][week]
    if plan is None or rung is None:
        return {"code": "", "dose": "", "colour": "", "text": ""}
    bands = season.qualities[quality].bands
    colour = ladder_colour(rung / (len(bands) - 1))
    dose = plan.doses[quality][week].word
    return {
        "code": clean(bands[rung].code),
        "dose": dose,
        "colour": colour,
        "text": text_on(colour),
    }


def _fixture(season: Season, base: Side, fixture: Fixture) -> dict[str, Any]:
    days = (fixture.date - season.weeks[0].monday).days
    return {
        "date": fixture.date.isoformat(),
        "said": _day(fixture.date),
        "week": days // 7 + 1,
        "day": days % 7,
        "name": clean(fixture.name),
        "priority": fixture.priority.value,
        "sign": SIGNS[fixture.priority],
        "new": fixture not in base.loaded.season.fixtures,
    }


def _day(day: dt.date) -> str:
    return f"{day:%a} {day.day} {day:%b}"


# --- numbers and differences ----------------------------------------------------------------


def _scores(base: Side, here: Side) -> list[dict[str, Any]]:
    was = match_score(base.loaded.season, base.plan) if base.plan else None
    now = match_score(here.loaded.season, here.plan) if here.plan else None
    rows = []
    for field, name in SCORES:
        values = [None if score is None else getattr(score, field) for score in (was, now)]
        if any(value is not None for value in values):
            told = [None if value is None else round(value, 1) for value in values]
            rows.append({"name": name, "was": told[0], "now": told[1]})
    return rows


def _peaks(found: Difference | None) -> list[dict[str, Any]]:
    if found is None:
        return []
    rows = []
    for row in found.fixtures:
        fixture = row.now or row.was
        assert fixture is not None
        rows.append(
            {
                "name": clean(fixture.name),
                "date": _day(fixture.date),
                "priority": fixture.priority.value,
                "sign": SIGNS[fixture.priority],
                "was": None if row.before is None else round(row.before.score, 1),
                "now": None if row.after is None else round(row.after.score, 1),
            }
        )
    return rows


def _changes(season: Season, found: Difference | None) -> list[str]:
    return (
        []
        if found is None
        else [clean(week_words(season, row)).replace(" -> ", " \u2192 ") for row in found.weeks]
    )


def _rule(rule: Rule) -> dict[str, Any]:
    return {
        "name": rule.name,
        "words": clean(rule.words()),
        "parameters": [
            {"name": name, "value": value}
            for name, value in _values(rule.model_dump(exclude=set(NOT_OWN)))
        ],
    }


def _values(table: dict[str, Any], above: str = "") -> list[tuple[str, bool | int | float]]:
    """Return the parameters that are one number or a yes or no; ``a.b`` for those in a table."""
    found: list[tuple[str, bool | int | float]] = []
    for key, value in table.items():
        if isinstance(value, bool | int | float):
            found.append((f"{above}{key}", value))
        elif isinstance(value, dict) and not above:
            found += _values(value, f"{key}.")
    return found
