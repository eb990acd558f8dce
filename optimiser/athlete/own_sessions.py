"""The squad's sessions as one athlete does them: without what is left out, and as long as that."""

import datetime as dt
from collections.abc import Callable, Mapping, Sequence
from math import ceil

from optimiser.athlete.card import Section, SessionDay

#: Minutes are told in steps of this many.
STEP = 5
#: The week's work by quality, as it is done on a day.
SectionsOn = Callable[[dt.date], Sequence[Section]]


def own_sessions(sessions: Sequence[SessionDay], sections_on: SectionsOn) -> tuple[SessionDay, ...]:
    """Return the sessions with the athlete's own work and minutes; those left empty are dropped."""
    found = [(each, _own(each, _shares(sections_on(each.date)))) for each in sessions]
    return tuple(own for session, own in found if own.pieces or not session.pieces)


def _shares(sections: Sequence[Section]) -> dict[str, float]:
    return {part.quality: part.share if part.lines or part.work else 0.0 for part in sections}


def _own(session: SessionDay, shares: Mapping[str, float]) -> SessionDay:
    pieces = tuple(
        piece.model_copy(update={"minutes": _fives(shares.get(piece.quality, 1.0), piece.minutes)})
        for piece in session.pieces
        if shares.get(piece.quality, 1.0)
    )
    if pieces == session.pieces:
        return session
    told = {
        "pieces": pieces,
        "work": tuple(piece.words for piece in pieces),
        "minutes": session.warm_up + session.finish + sum(piece.minutes for piece in pieces),
    }
    return session.model_copy(update=told)


def _fives(share: float, minutes: int) -> int:
    return minutes if share == 1 else min(minutes, STEP * ceil(share * minutes / STEP - 1e-9))
