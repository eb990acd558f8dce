"""What was done in the weeks that are over, against what was planned."""

from collections.abc import Sequence
from dataclasses import dataclass

from optimiser.board.board import LONGEST_SESSION
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose, Place
from optimiser.domain.season import Season
from optimiser.domain.setup_error import SetupError


@dataclass(frozen=True)
class Done:
    """One row of a log.

    Parameters
    ----------
    where
        Its place in the file, for messages.
    week, quality, rung
        Indices from 0; a rung of None is the one that was planned.
    load
        In AU; None if it is what the dose usually is.
    """

    where: str
    week: int
    quality: int
    dose: Dose
    rung: int | None = None
    load: int | None = None


@dataclass(frozen=True)
class History:
    """The weeks that are over.

    Parameters
    ----------
    past
        The plan with what was done in its first ``weeks`` weeks.
    season
        The season; where load was logged, the difference to the usual counts as load of the week.
    """

    past: Plan
    weeks: int
    season: Season


def history(season: Season, plan: Plan, weeks: int, log: Sequence[Done] = ()) -> History:
    """Return the first ``weeks`` weeks as they were done; what is not logged went as planned.

    Raises
    ------
    SetupError
        If the log contradicts the season: work in a closed week, or in one that is not over.
    """
    _check(season, weeks, log)
    rungs = [list(row) for row in plan.rungs]
    doses = [list(row) for row in plan.doses]
    for done in log:
        doses[done.quality][done.week] = done.dose
        if done.rung is not None:
            rungs[done.quality][done.week] = done.rung
    for week in range(len(season.weeks)):
        _fit_week(season, rungs, doses, week)
    past = plan.model_copy(
        update={
            "rungs": tuple(map(tuple, rungs)),
            "doses": tuple(map(tuple, doses)),
            "field": _sessions(season, plan.field, doses, "field", weeks),
            "gym": _sessions(season, plan.gym, doses, "gym", weeks),
        }
    )
    return History(past, weeks, _with_loads(season, log))


def _check(season: Season, weeks: int, log: Sequence[Done]) -> None:
    seen: dict[tuple[int, int], str] = {}
    for done in log:
        week = season.weeks[done.week]
        if done.week >= weeks:
            must = f"week must be over: 1 to {weeks}"
            do = "take the row out, or plan again from a later week"
            raise SetupError(done.where, must, str(week.number), do)
        if week.closed and (done.dose is not Dose.NONE or done.load):
            got = f"{season.keys[done.quality]} {done.dose.word}"
            do = "correct the row, or open the days with a change"
            must = f"week {week.number} is closed in this scenario, so nothing can be done in it"
            raise SetupError(done.where, must, got, do)
        key = done.week, done.quality
        if key in seen:
            got = f"week {week.number} {season.keys[done.quality]} again, as in {seen[key]}"
            raise SetupError(done.where, "a quality must come once a week", got, "take one out")
        seen[key] = done.where


def _fit_week(
    season: Season, rungs: list[list[int | None]], doses: list[list[Dose]], week: int
) -> None:
    """Give every quality a band in an open week and none in a closed one."""
    closed = season.weeks[week].closed
    for row, done in zip(rungs, doses, strict=True):
        if closed:
            row[week], done[week] = None, Dose.NONE
        elif row[week] is None:
            before = next((r for r in reversed(row[:week]) if r is not None), None)
            after = next((r for r in row[week:] if r is not None), 0)
            row[week] = after if before is None else before


def _sessions(
    season: Season,
    planned: Sequence[int],
    doses: Sequence[Sequence[Dose]],
    place: Place,
    weeks: int,
) -> tuple[int, ...]:
    """Return the sessions of past weeks: as planned, but none without work for it."""
    counts = list(planned)
    here = [index for index, quality in enumerate(season.qualities) if quality.place == place]
    for week in range(weeks):
        pieces = sum(min(int(doses[index][week]), 2) for index in here)
        minutes = sum(season.qualities[index].minutes(doses[index][week]) for index in here)
        needed = max(planned[week], 1, -(-minutes // LONGEST_SESSION))
        counts[week] = min(needed, pieces)
    return tuple(counts)


def _with_loads(season: Season, log: Sequence[Done]) -> Season:
    more: dict[int, int] = {}
    for done in log:
        if done.load is not None:
            usual = season.qualities[done.quality].load(done.dose)
            more[done.week] = more.get(done.week, 0) + done.load - usual
    if not any(more.values()):
        return season
    return season.model_copy(
        update={
            "weeks": tuple(
                week.model_copy(
                    update={"practice_load": max(0, week.practice_load + more.get(week.index, 0))}
                )
                for week in season.weeks
            )
        }
    )
