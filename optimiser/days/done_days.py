"""What of a week has been done, and on which days: it stands there."""

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from optimiser.days.pieces import Piece
from optimiser.domain.quality import Dose
from optimiser.progress.done_session import PRACTICE, DoneSession

#: Days (0 Monday to 6 Sunday), rising.
Days = tuple[int, ...]


class Stood(NamedTuple):
    """The days of the first of so many parts of a piece of work."""

    days: Days
    parts: int


@dataclass(frozen=True)
class DoneDays:
    """What has been done in one week.

    Parameters
    ----------
    until
        So many of its days are over.
    work, practice
        Days that are on record, of qualities by key and of team practice.
    planned
        What is not on record and was planned on days that are over: it went as planned.
    """

    until: int = 0
    work: Mapping[str, Days] = field(default_factory=dict)
    practice: Days = ()
    planned: Mapping[str, Stood] = field(default_factory=dict)

    @property
    def recorded(self) -> bool:
        """Tell whether anything of it is on record."""
        return bool(self.work or self.practice)

    def of(self, piece: Piece) -> Stood | None:
        """Return where a piece stands; what is done whole is done on the first day on record."""
        days = self.work.get(piece.quality.key, ())
        if not days:
            return self.planned.get(piece.quality.key)
        both = len(days) > 1 and piece.dose > Dose.TOUCH
        return Stood((days[0], days[-1]), 2) if both else Stood(days[:1], 1)

    def sessions(self, pieces: Sequence[Piece]) -> Days:
        """Return the days on which some of these pieces stand."""
        stood = filter(None, map(self.of, pieces))
        return tuple(sorted({day for each in stood for day in each.days}))

    def left(self, pieces: Sequence[Piece]) -> list[Piece]:
        """Return those of which something is still to be put on days."""
        pairs = [(piece, self.of(piece)) for piece in pieces]
        return [p for p, stood in pairs if stood is None or len(stood.days) < stood.parts]


NOTHING_DONE = DoneDays()


def done_days(
    first: dt.date, sessions: Iterable[DoneSession], today: dt.date | None
) -> dict[int, DoneDays]:
    """Return what was done by week (from 0): of weeks with records, and the one under way.

    Parameters
    ----------
    first
        The season's first Monday.
    sessions
        Of a whole squad or group.
    """
    if today is None:
        return {}
    found: dict[int, dict[str, set[int]]] = defaultdict(lambda: defaultdict(set))
    found[(today - first).days // 7].clear()
    for each in sessions:
        if each.dose != "none":
            week, day = divmod((each.date - first).days, 7)
            found[week][each.what].add(day)
    return {week: _done(first, week, told, today) for week, told in found.items()}


def _done(first: dt.date, week: int, told: Mapping[str, set[int]], today: dt.date) -> DoneDays:
    over = (today - first).days - 7 * week
    days = {what: tuple(sorted(on)) for what, on in told.items()}
    practice = days.pop(PRACTICE, ())
    return DoneDays(max(0, min(over, 7)), days, practice)
