"""Versions on the page: those kept side by side, and those of the folder's history."""

from typing import Any

from cli.render.clean_text import clean
from cli.render.signs import MATCH_SIGNS
from cli.serve.edit_words import page_words
from cli.serve.keeping import Files
from cli.serve.session import Kept, Session
from cli.serve.side import SeasonSide
from cli.serve.view.ladders import qualities
from optimiser.change.cells import changed_cells
from optimiser.domain.season import Season
from optimiser.review.score import match_score, readiness

#: Versions of the history shown at most, the newest first.
MOST = 60
#: What a reader of the page calls what the history keeps under the name of a command.
ACTIONS = {"serve": "saved", "as found": "begun"}


def kept_state(session: Session) -> list[dict[str, Any]]:
    """Return the versions kept, with the one on file first, to be set side by side."""
    if not session.kept:
        return []
    base = session.base
    rows = [_row("On file", (), base.season, base, session)] if base.plan else []
    return rows + [_kept(each, session) for each in session.kept]


def _kept(each: Kept, session: Session) -> dict[str, Any]:
    words = tuple(page_words(made.edit) for made in each.state)
    return _row(each.name, words, each.side.season, each.side, session)


def _row(
    name: str, words: tuple[str, ...], season: Season, side: SeasonSide, session: Session
) -> dict[str, Any]:
    plan, base = side.plan, session.base.plan
    assert plan is not None
    ready = readiness(season, plan)[0]
    score = match_score(season, plan).score
    return {
        "name": clean(name),
        "words": list(words),
        "score": None if score is None else round(score, 1),
        "proof": side.proof,
        "cost": None if side.proven is None else round(side.proven.cost, 1),
        "chart": _chart(side),
        "cells": len(changed_cells(base, plan, 0)) if base else 0,
        "peaks": [
            {
                "sign": MATCH_SIGNS[fixture.priority],
                "name": clean(fixture.name),
                "date": fixture.date.isoformat(),
                "ready": round(ready[week.index], 1),
                "target": round(week.target),
            }
            for week in season.weeks
            for fixture in week.fixtures
            if fixture.priority.great
        ],
    }


def _chart(side: SeasonSide) -> dict[str, Any]:
    """Return the season in small: a row of bands by quality, and planned readiness by week."""
    document = side.document
    assert document is not None
    return {
        "rows": [
            {
                "name": row["name"],
                "bars": [[bar["first"], bar["last"], bar["colour"]] for bar in row["bars"]],
            }
            for row in qualities(side, side, side)
        ],
        "ready": [round(week.readiness, 1) for week in document.weeks],
        "target": [round(week.target) for week in document.weeks],
    }


def versions_state(files: Files) -> list[dict[str, Any]]:
    """Return the states that the folder's history keeps, newest first."""
    current = files.current
    return [
        {
            "number": each.id,
            "at": each.at,
            "action": ACTIONS.get(each.action, each.action),
            "words": clean(each.words),
            "name": clean(each.name),
            "stands": each.id == current,
        }
        for each in reversed(files.versions[-MOST:])
    ]
