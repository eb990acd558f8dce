"""Every way to share a week's work out over its sessions, to compare with."""

from collections.abc import Iterator, Sequence
from itertools import combinations

from optimiser.days.pieces import Held, Piece, Sessions, Spread, Way, parted, unevenness
from optimiser.days.spacing_settings import SessionLimits
from optimiser.domain.quality import Dose


def spreads(
    pieces: Sequence[Piece], count: int, longest: int, limits: SessionLimits
) -> list[Spread]:
    """Return the ways to share ``pieces`` out over ``count`` sessions in the order of days.

    A touch is done once; more than a touch once, or half and half in two sessions. Ways that
    come to the same are kept once.
    """
    found: dict[Sessions, tuple[Way, ...]] = {(Held(),) * count: ()}
    for piece in pieces:
        grown: dict[Sessions, tuple[Way, ...]] = {}
        for sessions, ways in found.items():
            for way in _ways(piece, count):
                grown.setdefault(_with(sessions, piece, way), (*ways, way))
        found = grown
    return [
        Spread(ways, sessions, unevenness(sessions, longest, limits) + parted(pieces, ways))
        for sessions, ways in found.items()
    ]


def _ways(piece: Piece, count: int) -> Iterator[Way]:
    yield from ((session,) for session in range(count))
    if piece.dose > Dose.TOUCH:
        yield from combinations(range(count), 2)


def _with(sessions: Sessions, piece: Piece, way: Way) -> Sessions:
    filled = list(sessions)
    for part, session in enumerate(way):
        filled[session] = filled[session].plus(piece, part, len(way))
    return tuple(filled)
