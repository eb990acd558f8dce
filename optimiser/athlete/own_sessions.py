"""The squad's sessions as one athlete does them: without what is left out, and as long as that."""

from collections.abc import Mapping, Sequence
from math import ceil

from optimiser.athlete.card import Section, SessionDay

#: Minutes are told in steps of this many.
STEP = 5


def own_sessions(
    sessions: Sequence[SessionDay], sections: Sequence[Section]
) -> tuple[SessionDay, ...]:
    """Return the sessions with the athlete's own work and minutes; those left empty are dropped."""
    shares = {part.quality: part.share if part.lines or part.work else 0.0 for part in sections}
    found = (_own(session, shares) for session in sessions)
    return tuple(own for own in found if own.work or not own.pieces)


def _own(session: SessionDay, shares: Mapping[str, float]) -> SessionDay:
    if not session.pieces:
        return session
    kept = tuple(piece for piece in session.pieces if shares.get(piece.quality, 1.0))
    if kept == session.pieces and all(shares.get(p.quality, 1.0) == 1 for p in kept):
        return session
    minutes = sum(shares.get(piece.quality, 1.0) * piece.minutes for piece in kept)
    told = {
        "pieces": kept,
        "work": tuple(piece.words for piece in kept),
        "minutes": STEP * ceil(minutes / STEP - 1e-9),
    }
    return session.model_copy(update=told)
