"""Planned against done, by week."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from optimiser.change.cells import CellChange, changed_cells
from optimiser.domain.fixture import Fixture
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.progress.done_session import SQUAD, DoneSession
from optimiser.progress.lived import FullSets, Lived, live
from optimiser.review.score import readiness, training_load


@dataclass(frozen=True)
class WeekAgainst:
    """One week that is over, or under way.

    Parameters
    ----------
    week
        Index from 0.
    recorded
        Whether anything of it is on record; if not, it is taken as planned.
    load_planned, load_done
        In AU, with practice and matches.
    ready_planned, ready_now
        Planned readiness at the end of it, in points: from the plan, and from what was done.
    cells
        Qualities that were done otherwise than planned.
    """

    week: int
    recorded: bool
    load_planned: int
    load_done: int
    ready_planned: float
    ready_now: float
    cells: tuple[CellChange, ...]


@dataclass(frozen=True)
class PeakAgainst:
    """A high fixture still to come: its week (from 0), target, and planned readiness in points."""

    fixture: Fixture
    week: int
    target: float
    ready_planned: float
    ready_now: float


@dataclass(frozen=True)
class Against:
    """Planned against done: the weeks that are over, and what it means at the peaks to come."""

    weeks: tuple[WeekAgainst, ...]
    peaks: tuple[PeakAgainst, ...]


def against(season: Season, planned: Plan, lived: Lived) -> Against:
    """Return how a season was lived, against its plan.

    Parameters
    ----------
    season
        As it was planned.
    """
    before, now = readiness(season, planned)[0], readiness(lived.season, lived.plan)[0]
    cells = changed_cells(planned, lived.plan)
    weeks = tuple(
        WeekAgainst(
            week=week,
            recorded=week in lived.recorded,
            load_planned=training_load(season, planned, week) + season.weeks[week].fixed_load,
            load_done=training_load(lived.season, lived.plan, week)
            + lived.season.weeks[week].fixed_load,
            ready_planned=before[week],
            ready_now=now[week],
            cells=tuple(cell for cell in cells if cell.week == week),
        )
        for week in range(lived.weeks)
    )
    peaks = tuple(
        PeakAgainst(fixture, week.index, week.target, before[week.index], now[week.index])
        for week in season.weeks[lived.weeks :]
        for fixture in week.fixtures
        if fixture.priority.great
    )
    return Against(weeks, peaks)


def athlete_against(
    season: Season,
    planned: Plan,
    own: Sequence[DoneSession],
    today: dt.date,
    full_sets: FullSets,
) -> Against:
    """Return how one athlete lived a season.

    Parameters
    ----------
    own
        Of the athlete; where nothing of their own is known, the squad's or the group's.
    """
    mine = [each.model_copy(update={"who": SQUAD}) for each in own]
    return against(season, planned, live(season, planned, mine, today, full_sets))
