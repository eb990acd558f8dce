"""The answer to the last question that took long."""

from typing import Any

from cli.render.clean_text import clean
from cli.render.replan import kind_words, letters
from cli.serve.jobs import Failed
from cli.serve.questions import Reply, Ways
from cli.serve.session import Session
from cli.serve.view.differences import week_change
from optimiser.change.side_by_side import week_rows
from optimiser.review.score import readiness


def answer_state(session: Session) -> dict[str, Any] | None:
    """Return an answer as lines, or as plans to choose from; None where nothing was asked."""
    match session.answer:
        case Reply() as answer:
            return {"about": answer.about, "lines": [clean(line) for line in answer.lines]}
        case Failed() as failed:
            return {"about": "", "lines": [f"No answer: {clean(failed.words)}"]}
        case Ways() as ways:
            return {"about": "ways", "lines": [], "ways": _ways(session, ways)}
    return None


def _ways(session: Session, ways: Ways) -> list[dict[str, Any]]:
    """Return the plans from the least change to the best, each with what changes."""
    here, base = session.here, session.base
    assert base.plan is not None
    planned = base.there.planned if base.there else base.plan
    rows = []
    for letter, choice in letters(ways.trade).items():
        ready = readiness(here.season, choice.plan)[0]
        changes = week_rows(planned, choice.plan, here.over)
        rows.append(
            {
                "letter": letter,
                "words": kind_words(ways.trade, choice),
                "cells": choice.cells,
                "match": None if choice.match is None else round(choice.match, 1),
                "peaks": [
                    {"name": clean(fixture.name), "ready": round(ready[week.index], 1)}
                    for week in here.season.weeks[here.over :]
                    for fixture in week.fixtures
                    if fixture.priority.great
                ][:3],
                "changes": [week_change(here.season, row) for row in changes],
                "forced": len(choice.forced),
            }
        )
    return rows
