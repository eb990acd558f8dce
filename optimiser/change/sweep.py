"""A grid of rule parameters, every point planned; looser points settle tighter ones.

If no plan keeps a looser rule set, none keeps a tighter one. If the plan found for a looser one
keeps a tighter one too, it is as good there: its proof and its bound hold for fewer plans as well.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from optimiser.batch.case import Case
from optimiser.batch.engine import Crew
from optimiser.batch.job import Load
from optimiser.batch.loosen import only_loosens
from optimiser.batch.row import PLANNED, Result
from optimiser.change.many import plan_many
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.review.audit import keeps


@dataclass(frozen=True)
class Point:
    """One point of a grid: its values by ``rule.parameter``, and the solve it stands for."""

    values: tuple[tuple[str, Any], ...]
    case: Case


@dataclass(frozen=True)
class Swept:
    """A point and its result; ``source`` is the index of the point that proved it, if another."""

    index: int
    point: Point
    result: Result
    source: int | None = None


def sweep(
    season: Season,
    points: Sequence[Point],
    base: Plan,
    crew: Crew,
    load: Load,
    *,
    first: int = 0,
) -> Iterator[Swept]:
    """Plan every point, the loosest first, and yield it as it comes.

    Parameters
    ----------
    first
        First week (from 0) that is open, in a season in progress.
    """
    left = dict(enumerate(points))
    done: dict[int, Swept] = {}
    while left:
        wave = [index for index in left if not _looser(points, left, index)]
        asked: dict[str, int] = {}
        for index in wave:
            known = _known(season, points, done, index, first)
            if known is None:
                asked.setdefault(points[index].case.key, index)
            else:
                done[index] = known
                yield known
        solved = plan_many([points[index].case for index in asked.values()], base, crew, load)
        for key, result in solved:
            index = asked[key]
            done[index] = Swept(index, points[index], result)
            yield done[index]
        for index in wave:
            if index not in done:  # the same rules as another point of the wave
                same = asked[points[index].case.key]
                done[index] = Swept(index, points[index], done[same].result, same)
                yield done[index]
            del left[index]


def _looser(points: Sequence[Point], among: dict[int, Point], index: int) -> list[int]:
    rules = points[index].case.loaded
    return [
        other
        for other in among
        if other != index and only_loosens(points[other].case.loaded, rules)
    ]


def _known(
    season: Season, points: Sequence[Point], done: dict[int, Swept], index: int, first_open: int
) -> Swept | None:
    """Return what looser points prove of this one, if anything."""
    point = points[index]
    for other in _looser(points, {index_: points[index_] for index_ in done}, index):
        result = done[other].result
        if result.status == "clash":
            return Swept(index, point, Result(status="clash"), other)
        same = result.status in PLANNED and result.plan is not None
        if same and result.plan and keeps(season, point.case.loaded, result.plan, first=first_open):
            return Swept(index, point, result.model_copy(update={"seconds": 0.0}), other)
    return None
