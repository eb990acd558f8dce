"""The days on which groups train together."""

from collections.abc import Iterable, Sequence

from optimiser.days.pieces import Held
from optimiser.days.placing import Placed, Put, Task
from optimiser.days.shared_days import practice_days
from optimiser.days.together import place_together
from optimiser.days.week import Bounds, WeekMaker, start_bounds
from optimiser.domain.document import SessionDayPart
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Place

#: The days of one group's sessions, by week.
Written = tuple[tuple[SessionDayPart, ...], ...]
Slot = tuple[Place, int]
PLACES: tuple[Place, ...] = ("field", "gym")


def shared_days(makers: Sequence[WeekMaker], plans: Sequence[Plan], over: int = 0) -> list[Written]:
    """Return the days of every group's sessions, the same for what groups share.

    Parameters
    ----------
    makers
        One a group, in order: of its own season, with the calendar of all.
    over
        Weeks that are decided; nothing is written for them.
    """
    none: list[tuple[SessionDayPart, ...]] = [()] * len(plans)
    weeks = range(over, plans[0].weeks)
    by_week = [*[none] * over, *(_week(makers, plans, week) for week in weeks)]
    return [tuple(week[index] for week in by_week) for index in range(len(plans))]


def _week(
    makers: Sequence[WeekMaker], plans: Sequence[Plan], week: int
) -> list[tuple[SessionDayPart, ...]]:
    there = [at for at, maker in enumerate(makers) if not maker.season.weeks[week].closed]
    found: list[tuple[SessionDayPart, ...]] = [()] * len(makers)
    if not there:
        return found
    tasks = [makers[at].task(plans[at], week) for at in there]
    placed = place_together(tasks)
    starts, practised = _starts(tasks, placed), _practised(tasks, placed)
    for at, task, each in zip(there, tasks, placed, strict=True):
        found[at] = (*_written(task, each, starts), *practised)
    return found


def _practised(tasks: Sequence[Task], placed: Sequence[Placed]) -> list[SessionDayPart]:
    """Return the days of practice, where groups that differ might each have others."""
    different = [at for at, task in enumerate(tasks) if task not in tasks[:at]]
    if len(different) == 1:
        return []
    days = practice_days([tasks[at] for at in different], [placed[at] for at in different])
    return [SessionDayPart(place="practice", date=tasks[0].days[day].date) for day in days]


def _starts(tasks: Sequence[Task], placed: Sequence[Placed]) -> dict[Slot, Bounds]:
    """Return the bounds of starts: those of whoever works the legs hard."""
    found: dict[Slot, Bounds] = {}
    for task, each in zip(tasks, placed, strict=True):
        for place, day, held in _sessions(each):
            bounds = start_bounds(task.days[day], held, task.settings)
            if bounds != (None, None):
                found[place, day] = bounds
    return found


def _sessions(placed: Placed) -> Iterable[tuple[Place, int, Held]]:
    for place, put in zip(PLACES, (placed.field, placed.gym), strict=True):
        for day, held in zip(put.days, put.spread.sessions, strict=True):
            yield place, day, held


def _written(task: Task, placed: Placed, starts: dict[Slot, Bounds]) -> tuple[SessionDayPart, ...]:
    found = []
    for place, put in zip(PLACES, (placed.field, placed.gym), strict=True):
        for number, day in enumerate(put.days):
            start_from, start_by = starts.get((place, day), (None, None))
            found.append(
                SessionDayPart(
                    place=place,
                    date=task.days[day].date,
                    work=_work(task, place, put, number),
                    start_from=start_from,
                    start_by=start_by,
                )
            )
    return tuple(sorted(found, key=lambda part: (part.date, part.place)))


def _work(task: Task, place: Place, put: Put, number: int) -> tuple[str, ...]:
    pairs = zip(task.pieces[place], put.spread.ways, strict=True)
    return tuple(piece.quality.key for piece, way in pairs if number in way)
