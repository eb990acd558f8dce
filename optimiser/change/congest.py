"""Futures of a season drawn by chance: a cup that goes on and matches put off."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from optimiser.domain.edits import Add, Drop, Edit, Move
from optimiser.domain.fixture import Fixture, Priority
from optimiser.domain.season import Season
from optimiser.domain.setup_error import SetupError

WEDNESDAY = 2
#: Days a postponed match is put on, first choice first.
MIDWEEK = (WEDNESDAY, 1, 3)
#: Date difference that two matches need at least.
CLEAR = 2
ONE_DAY = dt.timedelta(days=1)


@dataclass(frozen=True)
class Draw:
    """How futures are drawn.

    Parameters
    ----------
    futures
        How many.
    rounds
        Cup rounds in order of date; the first is played, each later one if the one before it
        was got through.
    through
        Chance of getting through a round, 0-1.
    postpone
        Chance that a fixture of the season is put off, 0-1.
    indoors
        Competitions that are never put off.
    after
        Matches up to this day have been played, and stand.
    """

    futures: int
    rounds: tuple[Fixture, ...]
    through: float = 0.5
    postpone: float = 0.05
    indoors: frozenset[str] = field(default_factory=frozenset)
    seed: int = 0
    after: dt.date = dt.date.min


@dataclass(frozen=True)
class Drawn:
    """One future: how many rounds were played, which fixtures were put off, and the edits.

    Parameters
    ----------
    put_off
        Old and new date; new is None if no midweek day was left, so the match is not played.
    """

    rounds: int
    put_off: tuple[tuple[dt.date, dt.date | None], ...]
    edits: tuple[Edit, ...]


def draw_futures(season: Season, draw: Draw) -> list[Drawn]:
    """Return futures; the same seed gives the same ones, and more of them begin the same way.

    Raises
    ------
    SetupError
        If a cup round falls on a day that is taken, or outside the season.
    """
    _check_rounds(season, draw.rounds, draw.after)
    return [
        _one(season, draw, np.random.default_rng([draw.seed, number]))
        for number in range(draw.futures)
    ]


def spread_rounds(season: Season, count: int, after: dt.date = dt.date.min) -> tuple[Fixture, ...]:
    """Return cup rounds on free Wednesdays, spread evenly from the first match to the last.

    Parameters
    ----------
    after
        Last day that is over.

    Raises
    ------
    SetupError
        If there are not so many free Wednesdays.
    """
    taken = [fixture.date for fixture in season.fixtures]
    free = [
        day
        for week in season.weeks
        if not week.closed
        for day in [week.monday + dt.timedelta(days=WEDNESDAY)]
        if max(taken[0], after) < day < taken[-1] and _clear(day, taken)
    ]
    if len(free) < count:
        raise SetupError(
            "--rounds",
            "must be at most the free Wednesdays between the first match and the last that are to "
            f"come, {len(free)}",
            str(count),
            "ask for fewer, or give the dates with --cup-rounds",
        )
    days = [free[(2 * number + 1) * len(free) // (2 * count)] for number in range(count)]
    return tuple(
        Fixture(date=day, competition=f"Cup round {number}", priority=Priority.LOW)
        for number, day in enumerate(days, 1)
    )


def _check_rounds(season: Season, rounds: Sequence[Fixture], after: dt.date) -> None:
    first = max(season.weeks[0].monday, after + ONE_DAY)
    last = season.weeks[-1].monday + dt.timedelta(days=6)
    taken = {fixture.date: fixture for fixture in season.fixtures}
    for number, fixture in enumerate(rounds, 1):
        where = f"cup round {number}"
        if not first <= fixture.date <= last:
            must = f"must lie in the season, {first} to {last}"
            raise SetupError(where, must, str(fixture.date), "correct the date")
        if fixture.date in taken:
            got = f"{fixture.date}, on which {taken[fixture.date].name} is played"
            raise SetupError(where, "must be on a day without a fixture", got, "move one of them")
        taken[fixture.date] = fixture


def _one(season: Season, draw: Draw, chance: np.random.Generator) -> Drawn:
    # every chance is drawn whether it is needed or not, so that one future keeps its luck
    through = chance.random(len(draw.rounds)) < draw.through
    off = chance.random(len(season.fixtures)) < draw.postpone
    played = 0
    for ahead in through:
        played += 1
        if not ahead:
            break
    rounds = draw.rounds[:played]
    edits: list[Edit] = [_added(fixture) for fixture in rounds]
    days = {fixture.date for fixture in (*season.fixtures, *rounds)}
    put_off = []
    for fixture, late in zip(season.fixtures, off, strict=True):
        if late and fixture.date > draw.after and fixture.competition not in draw.indoors:
            days.remove(fixture.date)
            new = _next_free(season, fixture.date, days)
            if new is None and not days:
                days.add(fixture.date)  # a season keeps its last match
                continue
            put_off.append((fixture.date, new))
            if new is not None:
                days.add(new)
    edits += _moves(put_off)
    return Drawn(played, tuple(put_off), tuple(edits))


def _added(fixture: Fixture) -> Add:
    return Add(**fixture.model_dump())


def _moves(put_off: Sequence[tuple[dt.date, dt.date | None]]) -> list[Edit]:
    """Return the edits, the latest first, so that no day is taken twice on the way."""
    return [
        Drop(date=old) if new is None else Move(date=old, to=new)
        for old, new in sorted(put_off, key=lambda pair: pair[0], reverse=True)
    ]


def _next_free(season: Season, after: dt.date, taken: set[dt.date]) -> dt.date | None:
    for week in season.weeks:
        for weekday in MIDWEEK:
            day = week.monday + dt.timedelta(days=weekday)
            if day > after + dt.timedelta(days=1) and not week.closed and _clear(day, taken):
                return day
    return None


def _clear(day: dt.date, taken: Sequence[dt.date] | set[dt.date]) -> bool:
    return all(abs((day - other).days) >= CLEAR for other in taken)
