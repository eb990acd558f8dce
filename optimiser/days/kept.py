"""A week on the days that are written down for it."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from optimiser.days.done_days import DoneDays, Stood
from optimiser.days.pieces import Held, Piece, Spread, Way
from optimiser.days.placing import Placed, Put, Task
from optimiser.domain.document import SessionDayPart
from optimiser.domain.quality import Dose, Place


def kept_week(task: Task, written: Sequence[SessionDayPart]) -> Placed | None:
    """Return a week as it is written down, or None if that does not fit its sessions and work."""
    field, gym = _put(task, "field", written), _put(task, "gym", written)
    return Placed(field, gym, 0) if field and gym else None


def practised_as(task: Task, written: Sequence[SessionDayPart]) -> Task:
    """Return a week with practice on the days that are written down for it, if they fit."""
    numbers = {day.date: day.index for day in task.days}
    days = [numbers.get(each.date, -1) for each in written if each.place == "practice"]
    practices = task.practices
    fits = len(days) == practices.count and {*practices.fixed} <= {*days} <= {*practices.order}
    order = tuple(day for day in practices.order if day in days)
    return replace(task, practices=replace(practices, order=order)) if days and fits else task


def with_past(done: DoneDays, task: Task, placed: Placed) -> DoneDays:
    """Return what was done in a week, with what is over and went as it was placed."""
    planned = {}
    for piece, days in _work(task, placed):
        over = tuple(day for day in days if day < done.until)
        if over:
            planned[piece.quality.key] = Stood(over, len(days))
    practice = tuple(day for day in sorted(placed.clock.practice) if day < done.until)
    return replace(done, practice=done.practice or practice, planned=planned)


def stands(done: DoneDays, task: Task, placed: Placed) -> bool:
    """Tell whether a placed week has what was done in it on the days it was done on."""
    pairs = [(done.of(piece), days) for piece, days in _work(task, placed)]
    return {*done.practice} <= {*placed.clock.practice} and all(
        stood is None or stood.days == days for stood, days in pairs
    )


def _work(task: Task, placed: Placed) -> Iterator[tuple[Piece, tuple[int, ...]]]:
    """Yield every piece of a placed week with its days."""
    puts: tuple[tuple[Place, Put], ...] = (("field", placed.field), ("gym", placed.gym))
    for place, put in puts:
        for piece, way in zip(task.pieces[place], put.spread.ways, strict=True):
            yield piece, tuple(put.days[number] for number in way)


def _put(task: Task, place: Place, written: Sequence[SessionDayPart]) -> Put | None:
    here = sorted((each for each in written if each.place == place), key=lambda each: each.date)
    numbers = {day.date: day.index for day in task.days}
    days = tuple(numbers.get(each.date, -1) for each in here)
    pieces = task.pieces[place]
    ways = tuple(
        tuple(number for number, each in enumerate(here) if piece.quality.key in each.work)
        for piece in pieces
    )
    named = {key for each in here for key in each.work}
    fits = (
        len(days) == task.counts[place]
        and -1 not in days
        and all(before < after for before, after in pairwise(days))
        and named == {piece.quality.key for piece in pieces}
        and all(map(_legal, pieces, ways))
    )
    return Put(days, Spread(ways, _held(pieces, ways, len(days)), 0)) if fits else None


def _legal(piece: Piece, way: Way) -> bool:
    return len(way) == 1 or (len(way) == 2 and piece.dose > Dose.TOUCH)


def _held(pieces: Sequence[Piece], ways: Sequence[Way], count: int) -> tuple[Held, ...]:
    found = [Held()] * count
    for piece, way in zip(pieces, ways, strict=True):
        for part, session in enumerate(way):
            found[session] = found[session].plus(piece, part, len(way))
    return tuple(found)
