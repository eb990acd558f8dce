"""The standing work of one week, put on its sessions."""

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from optimiser.athlete.exercise import Exercise, Item
from optimiser.athlete.minutes import set_seconds
from optimiser.athlete.standing import STEPS, Part, Preparation, StandingKind, StandingPart
from optimiser.domain.quality import Place
from optimiser.domain.season import Phase, Season

#: Minutes of a warm-up (Jeffreys 2007: 10-15), and the most at the end of a session.
WARM_UP: dict[Place, int] = {"field": 15, "gym": 10}
FINISH = 10
#: A session so many days before a match or fewer has a short warm-up and nothing standing.
EVE, EVE_WARM_UP = 1, 10
#: After so many weeks off the programme begins again (engineering choice).
LONG_BREAK_WEEKS = 3


@dataclass
class Standing:
    """What one session holds beside the plan's own work.

    Parameters
    ----------
    ahead
        Days to the next match; None if there is none.
    seconds
        Of its standing work, by part.
    """

    place: Place
    date: dt.date
    ahead: int | None
    parts: list[StandingPart] = field(default_factory=list)
    seconds: dict[str, float] = field(default_factory=dict)

    @property
    def kinds(self) -> tuple[str, ...]:
        """Return the kinds of standing work in it, the warm-up's own steps left out."""
        return tuple(part.name for part in self.parts if part.name not in STEPS)

    @property
    def warm_up(self) -> int:
        """Return the minutes of the warm-up, with what stands in it."""
        return EVE_WARM_UP if self.eve else WARM_UP[self.place]

    @property
    def finish(self) -> int:
        """Return the minutes at the end, in fives."""
        return 5 * -int(-self.seconds.get("finish", 0.0) // 300)

    @property
    def minutes(self) -> int:
        """Return the minutes of all of it."""
        return self.warm_up + self.finish

    @property
    def eve(self) -> bool:
        """Return True if a match is too near for anything but a warm-up."""
        return self.ahead is not None and self.ahead <= EVE

    def room(self, part: Part) -> float:
        """Return the seconds that are left."""
        most = FINISH if part == "finish" else self.warm_up
        return 60 * most - self.seconds.get(part, 0.0)


def standing_week(
    preparation: Preparation,
    exercises: Mapping[str, Exercise],
    sessions: Iterable[tuple[Place, dt.date]],
    matches: Sequence[dt.date],
    phase: Phase,
    week: int,
) -> list[Standing]:
    """Return what stands in each session of a week, in the order given.

    Each kind comes as often as its phase wants it, at most once a day, never nearer to a match
    than it may, and only where there is room: sessions with the least of it first, days apart
    from the last time before days in a row.

    Parameters
    ----------
    matches
        Dates of this week and the next.
    week
        Of the programme, from 1.
    """
    found = [Standing(place, date, _ahead(date, matches)) for place, date in sessions]
    for session in found:
        session.parts.extend(preparation.warm_up[session.place].parts)
        session.seconds["warm-up"] = sum(_seconds(part.work, exercises) for part in session.parts)
    for kind in preparation.kinds.values():
        _put(kind, kind.work(week), kind.times(phase, week), found, exercises)
    return found


def _put(
    kind: StandingKind,
    work: tuple[Item, ...],
    times: int,
    sessions: Sequence[Standing],
    exercises: Mapping[str, Exercise],
) -> None:
    length = _seconds(work, exercises)
    days: list[dt.date] = []
    while len(days) < times:
        open_ = [
            each
            for each in sessions
            if each.date not in days
            and not _too_near(kind, each)
            and length <= each.room(kind.part)
        ]
        if not open_:
            return
        best = min(open_, key=lambda each: _dislike(each, days, kind))
        # in the warm-up before its last step, which leads over to the work
        last = [part.name for part in best.parts].index(STEPS[-1])
        at = last if kind.part == "warm-up" else len(best.parts)
        made = StandingPart(name=kind.name, part=kind.part, work=work, steps=kind.steps)
        best.parts.insert(at, made)
        best.seconds[kind.part] = best.seconds.get(kind.part, 0.0) + length
        days.append(best.date)


def _seconds(work: Iterable[Item], exercises: Mapping[str, Exercise]) -> float:
    return sum(item.sets * set_seconds(item, exercises[item.exercise]) for item in work)


def _too_near(kind: StandingKind, session: Standing) -> bool:
    return session.eve or (session.ahead is not None and session.ahead < kind.days_before)


def _dislike(session: Standing, days: Sequence[dt.date], kind: StandingKind) -> tuple[float, ...]:
    elsewhere = kind.place is not None and session.place != kind.place
    close = any(abs((session.date - day).days) < 2 for day in days)
    return elsewhere, close, session.seconds.get(kind.part, 0.0), session.date.toordinal()


def programme_week(season: Season, index: int) -> int:
    """Return the week of the programme, from 1: weeks of training since a long break."""
    count, closed = 0, 0
    for week in season.weeks[: index + 1]:
        closed = closed + 1 if week.closed else 0
        count = 0 if closed >= LONG_BREAK_WEEKS else count + (not week.closed)
    return max(1, count)


def _ahead(date: dt.date, matches: Sequence[dt.date]) -> int | None:
    return min(((match - date).days for match in matches if match >= date), default=None)
