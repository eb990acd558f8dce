"""What another plan would mean at the matches."""

from collections.abc import Iterable
from dataclasses import dataclass

from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.review.score import readiness


@dataclass(frozen=True)
class FixtureChange:
    """Readiness at one fixture, in points, before and after; ``week`` is an index from 0."""

    week: int
    name: str
    target: float
    before: float
    after: float

    @property
    def gain(self) -> float:
        """Return the points gained; below 0 if they are lost."""
        return self.after - self.before


def match_changes(season: Season, old: Plan, new: Plan) -> tuple[FixtureChange, ...]:
    """Return every fixture with its readiness under both plans."""
    before, after = readiness(season, old)[0], readiness(season, new)[0]
    return tuple(
        FixtureChange(week.index, fixture.name, week.target, before[week.index], after[week.index])
        for week in season.weeks
        for fixture in week.fixtures
    )


def telling(changes: Iterable[FixtureChange]) -> tuple[FixtureChange | None, FixtureChange | None]:
    """Return the fixture that loses most and the one that gains most; None if none does."""
    ordered = sorted(changes, key=lambda each: each.gain)
    if not ordered:
        return None, None
    worst, best = ordered[0], ordered[-1]
    return (worst if worst.gain < 0 else None), (best if best.gain > 0 else None)
