"""The pieces of a week's work, and the ways to share them out over its sessions."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from optimiser.days.spacing_settings import SessionLimits
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Band, Dose, Place, Quality
from optimiser.domain.season import Season

# What is liked less, in hundredths (engineering choices): a session without work; a minute too
# long; a piece too many; a session of hard leg work; a minute between the longest and the
# shortest; work parted in two, and where there is much of it.
EMPTY, OVER, CROWDED, HARD_SESSION, UNEVEN = 100_000, 5000, 20_000, 600, 33
PARTED, PARTED_FULL = 500, 200


@dataclass(frozen=True, slots=True)
class Piece:
    """One quality's work in a week.

    Parameters
    ----------
    rank
        Place in the order of a session: top speed, jumps, other field work, lifting.
    """

    quality: Quality
    rung: int
    dose: Dose
    rank: int

    @property
    def band(self) -> Band:
        """Return the band it is of."""
        return self.quality.bands[self.rung]

    @property
    def hard(self) -> bool:
        """Return True if it is hard work for the legs."""
        return self.quality.lower_body and self.dose > Dose.TOUCH

    @property
    def speed(self) -> bool:
        """Return True if it holds runs near top speed."""
        return self.band.amounts.get("near_top_speed_m", 0) > 0

    @property
    def jumps(self) -> bool:
        """Return True if it holds ground contacts; jumps in the gym are spaced as leg work."""
        return self.quality.place == "field" and self.band.amounts.get("contacts", 0) > 0

    @property
    def lifting(self) -> bool:
        """Return True if it holds hard sets."""
        return self.band.amounts.get("hard_sets", 0) > 0

    def minutes(self, part: int, parts: int) -> int:
        """Return the minutes of one of its parts, the first (from 0) the longest."""
        return share(self.quality.minutes(self.dose, self.rung), part, parts)

    def load(self, part: int, parts: int) -> int:
        """Return the load of one of its parts, in AU."""
        return share(self.quality.load(self.dose, self.rung), part, parts)


def share(total: int, part: int, parts: int) -> int:
    """Return one of ``parts`` whole numbers that add up to ``total``, the larger ones first."""
    return (total + parts - 1 - part) // parts


def week_pieces(season: Season, plan: Plan, week: int, place: Place) -> list[Piece]:
    """Return the work of one place in a week (index from 0), in the order of a session."""
    found = []
    for quality, rungs, doses in zip(season.qualities, plan.rungs, plan.doses, strict=True):
        rung = rungs[week]
        if quality.place == place and rung is not None and doses[week] is not Dose.NONE:
            found.append(_piece(quality, rung, doses[week]))
    return sorted(found, key=lambda piece: piece.rank)


def _piece(quality: Quality, rung: int, dose: Dose) -> Piece:
    piece = Piece(quality, rung, dose, 2)
    gym = piece.lifting or quality.place == "gym"
    rank = 0 if piece.speed else 1 if piece.jumps else 3 if gym else 2
    return Piece(quality, rung, dose, rank)


class Held(NamedTuple):
    """What one session holds."""

    minutes: int = 0
    load: int = 0
    pieces: int = 0
    above_touch: bool = False
    hard: bool = False
    speed: bool = False
    jumps: bool = False
    lifting: bool = False

    def plus(self, piece: Piece, part: int, parts: int) -> "Held":
        """Return it with one part of ``piece`` added."""
        return Held(
            self.minutes + piece.minutes(part, parts),
            self.load + piece.load(part, parts),
            self.pieces + 1,
            self.above_touch or piece.dose > Dose.TOUCH,
            self.hard or piece.hard,
            self.speed or piece.speed,
            self.jumps or piece.jumps,
            self.lifting or piece.lifting,
        )


Way = tuple[int, ...]
Sessions = tuple[Held, ...]


class Spread(NamedTuple):
    """A way to share pieces out: for each of them its sessions, and what sessions then hold."""

    ways: tuple[Way, ...]
    sessions: Sessions
    cost: int


def parted(pieces: Iterable[Piece], ways: Iterable[Way]) -> int:
    """Return what it costs to part work: less for much of it."""
    return sum(
        PARTED_FULL if piece.dose is Dose.FULL else PARTED
        for piece, way in zip(pieces, ways, strict=True)
        if len(way) > 1
    )


def unevenness(sessions: Sessions, longest: int, limits: SessionLimits) -> int:
    """Return what is wrong with a way, whatever the days: too long, too full, uneven, empty."""
    minutes = [held.minutes for held in sessions] or [0]
    over = sum(max(0, each - longest) for each in minutes)
    crowded = sum(max(0, held.pieces - limits.pieces) for held in sessions)
    empty = sum(not held.pieces for held in sessions)
    hard = sum(held.hard for held in sessions)
    uneven = max(minutes) - min(minutes)
    return EMPTY * empty + OVER * over + CROWDED * crowded + HARD_SESSION * hard + UNEVEN * uneven
