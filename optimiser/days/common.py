"""One way to share work out over sessions for several groups, each with doses of its own."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations
from typing import NamedTuple

from optimiser.days.pieces import Held, Piece, Sessions, Spread, Way, parted, unevenness
from optimiser.days.spacing_settings import SessionLimits
from optimiser.domain.quality import Dose

#: Ways kept; a usual week has fewer. Beyond it the evenest are kept.
MOST_COMMON = 1000


class Work(NamedTuple):
    """One group's work of one place, and in how many sessions it is done."""

    pieces: Sequence[Piece]
    sessions: int

    def dose(self, key: str) -> Dose:
        """Return the dose of a quality, by its key."""
        return next((p.dose for p in self.pieces if p.quality.key == key), Dose.NONE)


class _Sessions(NamedTuple):
    """Where one quality is done: its sessions, and which of them a touch is done in."""

    all: Way
    touch: int

    def of(self, dose: Dose) -> Way:
        return self.all if dose > Dose.TOUCH else (self.touch,)


def common_spreads(
    groups: Sequence[Work], count: int, longest: int, limits: SessionLimits
) -> list[tuple[Spread, ...]]:
    """Return the ways to share out the work of groups that train together, one spread a group.

    A quality is done in the same session by every group, or by those with more than a touch of it
    half and half in two, and by the others in one of these. A group with fewer sessions than there
    are has no work in some.

    Parameters
    ----------
    count
        Sessions of the group with the most, at least.
    """
    found: dict[tuple[Sessions, ...], dict[str, _Sessions]] = {
        ((Held(),) * count,) * len(groups): {}
    }
    for key, pieces in _by_quality(groups):
        grown: dict[tuple[Sessions, ...], dict[str, _Sessions]] = {}
        for held, taken in found.items():
            for option in _options([piece.dose for piece in pieces.values()], count):
                grown.setdefault(_added(held, pieces, option), {**taken, key: option})
        found = _evenest(grown, groups, longest, limits)
    return [
        tuple(
            _spread(group, taken, sessions, longest, limits)
            for group, sessions in zip(groups, held, strict=True)
        )
        for held, taken in found.items()
    ]


def _by_quality(groups: Sequence[Work]) -> list[tuple[str, dict[int, Piece]]]:
    """Return every quality with its pieces by group, in the order of a session."""
    found: dict[str, dict[int, Piece]] = {}
    for index, group in enumerate(groups):
        for piece in group.pieces:
            found.setdefault(piece.quality.key, {})[index] = piece
    return sorted(found.items(), key=lambda each: min(piece.rank for piece in each[1].values()))


def _options(doses: Sequence[Dose], count: int) -> Iterator[_Sessions]:
    yield from (_Sessions((session,), session) for session in range(count))
    if any(dose > Dose.TOUCH for dose in doses):
        for pair in combinations(range(count), 2):
            touches = pair if Dose.TOUCH in doses else pair[:1]
            yield from (_Sessions(pair, session) for session in touches)


def _added(
    held: tuple[Sessions, ...], pieces: Mapping[int, Piece], option: _Sessions
) -> tuple[Sessions, ...]:
    out = list(held)
    for index, piece in pieces.items():
        way, sessions = option.of(piece.dose), list(out[index])
        for part, session in enumerate(way):
            sessions[session] = sessions[session].plus(piece, part, len(way))
        out[index] = tuple(sessions)
    return tuple(out)


def _evenest(
    found: dict[tuple[Sessions, ...], dict[str, _Sessions]],
    groups: Sequence[Work],
    longest: int,
    limits: SessionLimits,
) -> dict[tuple[Sessions, ...], dict[str, _Sessions]]:
    if len(found) <= MOST_COMMON:
        return found

    def cost(held: tuple[Sessions, ...]) -> int:
        pairs = zip(groups, held, strict=True)
        return sum(unevenness(_left(group, each), longest, limits) for group, each in pairs)

    return {held: found[held] for held in sorted(found, key=cost)[:MOST_COMMON]}


def _left(group: Work, sessions: Sessions) -> Sessions:
    """Return a group's own sessions: all of them, or where it has fewer, those with work."""
    filled = tuple(held for held in sessions if held.pieces)
    return filled if len(sessions) > group.sessions else sessions


def _spread(
    group: Work,
    taken: Mapping[str, _Sessions],
    sessions: Sessions,
    longest: int,
    limits: SessionLimits,
) -> Spread:
    """Return one group's spread; its ways name sessions by their number among all of them."""
    ways = tuple(taken[piece.quality.key].of(piece.dose) for piece in group.pieces)
    cost = unevenness(_left(group, sessions), longest, limits) + parted(group.pieces, ways)
    return Spread(ways, sessions, cost)
