"""The whole state of a season on the page."""

from typing import Any

from cli.render.clean_text import clean
from cli.season.enlisting import athletes_in
from cli.serve.edit_words import page_words
from cli.serve.session import Session
from cli.serve.view.answers import answer_state
from cli.serve.view.differences import difference_state, step_sentences
from cli.serve.view.fixtures_shown import fixtures, without_date
from cli.serve.view.ladders import borders, qualities
from cli.serve.view.rules import rules_state
from cli.serve.view.versions import kept_state, versions_state
from cli.serve.view.weeks import weeks
from optimiser.review.score import match_score

SCORES = (
    ("score", "Match score"),
    ("at_high", "At high matches"),
    ("at_medium", "At medium matches"),
    ("at_low", "At low matches"),
)


def page_state(session: Session) -> dict[str, Any]:
    """Return the whole state of a session."""
    with session.lock:
        base, here = session.base, session.here
        shown = here if here.plan is not None else base
        season = here.season
        did = step_sentences(session)
        return {
            **progress_state(session),
            "place": "season",
            "name": clean(season.name),
            "sport": clean(season.sport),
            "first": season.weeks[0].monday.isoformat(),
            "today": _today(session),
            "over": here.over,
            "told": session.told,
            "trouble": session.trouble,
            "stale": here.plan is None,
            "provisional": here.provisional,
            "proof": here.proof,
            "weeks": weeks(here, shown, base, changed=session.changed is not None),
            "fixtures": fixtures(here, session.changed),
            "undated": without_date(session.changed),
            "qualities": qualities(here, shown, base),
            "borders": borders(here),
            "before": _before(session),
            "scores": _scores(session),
            **difference_state(session),
            "edits": [
                {
                    "number": made.number,
                    "words": page_words(made.edit),
                    "did": did.get(made.number, ""),
                }
                for made in session.steps.now
            ],
            "undo": session.steps.can_undo,
            "redo": session.steps.can_redo,
            "rules": rules_state(here),
            "clash": _clash(session),
            "answer": answer_state(session),
            "kept": kept_state(session),
            "versions": versions_state(session.files),
            "can_save": session.can_save,
            "saving": session.saving,
            "files": list(session.files.names),
            "folder": str(session.loaded.path.parent),
            "squad": athletes_in(session.loaded),
        }


def progress_state(session: Session) -> dict[str, Any]:
    """Return only how far the work is, which is asked for often."""
    return {
        "version": session.version,
        "revision": session.revision,
        "solving": _running(session.solver.progress(), _words(session)),
        "asking": _running(session.asker.progress(), "Working it out"),
    }


def _before(session: Session) -> dict[str, Any] | None:
    """Return the plan on file where another one is shown, to be looked at beside it."""
    base, here = session.base, session.here
    if here is base or base.plan is None or here.plan is None:
        return None
    return {
        "qualities": qualities(base, base, base),
        "weeks": weeks(base, base, base, changed=False),
    }


def _running(progress: tuple[float, str] | None, usual: str) -> dict[str, Any] | None:
    if progress is None:
        return None
    seconds, words = progress
    return {"seconds": round(seconds, 1), "words": words or usual}


def _words(session: Session) -> str:
    if session.base.plan is None:
        return "Looking for the best plan"
    near = "Looking for the best plan near the old one"
    return "Refining the plan shown" if session.here.plan is not None else near


def _today(session: Session) -> str | None:
    day = session.today()
    weeks = session.here.season.weeks
    inside = 0 <= (day - weeks[0].monday).days < 7 * len(weeks)
    return day.isoformat() if inside and session.files.current is not None else None


def _scores(session: Session) -> list[dict[str, Any]]:
    base, here = session.base, session.here
    was = match_score(base.season, base.plan) if base.plan else None
    now = match_score(here.season, here.plan) if here.plan else None
    rows = []
    for field, name in SCORES:
        values = [None if score is None else getattr(score, field) for score in (was, now)]
        if any(value is not None for value in values):
            told = [None if value is None else round(value, 1) for value in values]
            rows.append({"name": name, "was": told[0], "now": told[1]})
    return rows


def _clash(session: Session) -> dict[str, Any] | None:
    clash = session.clash
    if clash is None:
        return None
    return {
        "lines": [clean(line) for line in clash.lines],
        "mends": [{"words": list(m.words), "safety": m.safety} for m in clash.mends],
    }
