"""Two plans side by side: fixtures, weeks, totals."""

from collections.abc import Sequence
from dataclasses import dataclass

from optimiser.change.cells import CellChange, changed_cells
from optimiser.domain.fixture import Fixture, Priority
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.review.score import (
    MatchScore,
    fixture_score,
    match_score,
    readiness,
    training_load,
    training_minutes,
)

Pair = tuple[Fixture | None, Fixture | None]


@dataclass(frozen=True)
class At:
    """What a plan reaches at one fixture; week is an index from 0, the rest points 0-100."""

    fixture: Fixture
    week: int
    target: float
    readiness: float

    @property
    def score(self) -> float:
        """Return the share of the target that is reached, 0-100."""
        return fixture_score(self.readiness, self.target)


@dataclass(frozen=True)
class FixtureRow:
    """One fixture before and after; None where it is not played, or there is no plan."""

    was: Fixture | None
    now: Fixture | None
    before: At | None
    after: At | None


@dataclass(frozen=True)
class WeekRow:
    """One week whose choices differ, index from 0; sessions are field and gym."""

    week: int
    cells: tuple[CellChange, ...]
    sessions_before: tuple[int, int]
    sessions_after: tuple[int, int]


@dataclass(frozen=True)
class Totals:
    """A plan's sums over the season: AU, sessions, minutes; ``load`` has practice and matches."""

    training: int
    load: int
    field: int
    gym: int
    minutes: int


@dataclass(frozen=True)
class Difference:
    """What changed from one plan to another.

    Parameters
    ----------
    fixtures
        High and medium fixtures of either season.
    """

    fixtures: tuple[FixtureRow, ...]
    weeks: tuple[WeekRow, ...]
    match_after: MatchScore
    totals_before: Totals
    totals_after: Totals


def compare(
    before: tuple[Season, Plan], after: tuple[Season, Plan], pairs: Sequence[Pair]
) -> Difference:
    """Return how the plan ``after`` differs from the one ``before``.

    Parameters
    ----------
    pairs
        Every fixture as it was and as it is now.
    """
    return Difference(
        fixtures=fixture_rows(at_fixtures(*before), at_fixtures(*after), pairs),
        weeks=week_rows(before[1], after[1]),
        match_after=match_score(*after),
        totals_before=totals(*before),
        totals_after=totals(*after),
    )


def at_fixtures(season: Season, plan: Plan) -> dict[Fixture, At]:
    """Return what a plan reaches at every fixture."""
    ready, _ = readiness(season, plan)
    return {
        fixture: At(fixture, week.index, week.target, ready[week.index])
        for week in season.weeks
        for fixture in week.fixtures
    }


def fixture_rows(
    before: dict[Fixture, At], after: dict[Fixture, At], pairs: Sequence[Pair]
) -> tuple[FixtureRow, ...]:
    """Return the fixtures that are high or medium before or after, by date."""
    rows = [
        FixtureRow(was, now, before.get(was) if was else None, after.get(now) if now else None)
        for was, now in pairs
        if any(each is not None and each.priority is not Priority.LOW for each in (was, now))
    ]
    return tuple(sorted(rows, key=_date))


def _date(row: FixtureRow) -> str:
    fixture = row.now or row.was
    return fixture.date.isoformat() if fixture else ""


def week_rows(old: Plan, new: Plan, first: int = 0) -> tuple[WeekRow, ...]:
    """Return the weeks from ``first`` on in which bands, doses or sessions differ."""
    cells = changed_cells(old, new, first)
    rows = []
    for week in range(first, old.weeks):
        here = tuple(change for change in cells if change.week == week)
        sessions = (old.field[week], old.gym[week]), (new.field[week], new.gym[week])
        if here or sessions[0] != sessions[1]:
            rows.append(WeekRow(week, here, *sessions))
    return tuple(rows)


def totals(season: Season, plan: Plan) -> Totals:
    """Return a plan's sums over the season."""
    weeks = range(len(season.weeks))
    training = sum(training_load(season, plan, week) for week in weeks)
    return Totals(
        training=training,
        load=training + sum(week.fixed_load for week in season.weeks),
        field=sum(plan.field),
        gym=sum(plan.gym),
        minutes=sum(training_minutes(season, plan, week) for week in weeks),
    )
