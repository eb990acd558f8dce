"""What drawn futures come to: scores at the high fixtures, clashes, and what hurts most."""

from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from optimiser.change.congest import Drawn
from optimiser.change.side_by_side import Pair, at_fixtures
from optimiser.domain.fixture import Fixture
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.review.score import match_score, readiness

#: Percentiles told of a spread.
LOW, MIDDLE, HIGH = 5, 50, 95
#: Weeks and postponed fixtures told.
MOST = 5
#: Futures on either side from which an average is worth telling.
ENOUGH = 3


@dataclass(frozen=True)
class FutureOutcome:
    """One future, planned or not.

    Parameters
    ----------
    status
        ``planned``, ``clash`` or ``unknown``.
    """

    drawn: Drawn
    season: Season
    pairs: tuple[Pair, ...]
    status: str
    plan: Plan | None


@dataclass(frozen=True)
class Quantiles:
    """How a score is spread over the futures that have it, points 0-100."""

    count: int
    mean: float
    least: float
    low: float
    middle: float
    high: float


@dataclass(frozen=True)
class HighFixture:
    """One high fixture of the season as it stands; ``spread`` is None if never reached."""

    fixture: Fixture
    base: float
    spread: Quantiles | None
    not_played: int


@dataclass(frozen=True)
class Hurt:
    """How futures with something differ from futures without it.

    Parameters
    ----------
    count
        Futures with it.
    points
        Mean match score with it less mean without, None if either side is too small to tell.
    clashes
        How many of the futures with it have no plan.
    """

    what: str
    count: int
    points: float | None
    clashes: int


@dataclass(frozen=True)
class HurtWeek:
    """A week (index from 0): mean readiness lost against the plan as it stands, in points."""

    week: int
    lost: float
    busier: int


@dataclass(frozen=True)
class CongestionReport:
    """What the futures come to; counts are numbers of futures."""

    futures: int
    distinct: int
    clashes: int
    unknown: int
    base: float | None
    match: Quantiles | None
    fixtures: tuple[HighFixture, ...]
    rounds: tuple[Hurt, ...]
    put_off: tuple[Hurt, ...]
    weeks: tuple[HurtWeek, ...]


def report(
    season: Season,
    plan: Plan,
    lived: Sequence[FutureOutcome],
    rounds: Sequence[Fixture],
    distinct: int,
) -> CongestionReport:
    """Return what the futures ``lived`` come to against the plan as it stands."""
    scores = [_match(each) for each in lived]
    return CongestionReport(
        futures=len(lived),
        distinct=distinct,
        clashes=sum(each.status == "clash" for each in lived),
        unknown=sum(each.status == "unknown" for each in lived),
        base=match_score(season, plan).score,
        match=spread([score for score in scores if score is not None]),
        fixtures=_high_fixtures(season, plan, lived),
        rounds=tuple(
            _hurt(_round_name(number, fixture), lived, scores, _played(number))
            for number, fixture in enumerate(rounds, 1)
        ),
        put_off=_put_off(season, lived, scores),
        weeks=_weeks(season, plan, lived),
    )


def spread(scores: Sequence[float]) -> Quantiles | None:
    """Return the spread of some scores; None of no scores."""
    if not scores:
        return None
    low, middle, high = np.percentile(scores, [LOW, MIDDLE, HIGH])
    mean, least = float(np.mean(scores)), min(scores)
    return Quantiles(len(scores), mean, least, float(low), float(middle), float(high))


def _match(each: FutureOutcome) -> float | None:
    return None if each.plan is None else match_score(each.season, each.plan).score


def _high_fixtures(
    season: Season, plan: Plan, lived: Sequence[FutureOutcome]
) -> tuple[HighFixture, ...]:
    scores: dict[Fixture, list[float]] = defaultdict(list)
    missed: dict[Fixture, int] = defaultdict(int)
    for each in lived:
        reached = None if each.plan is None else at_fixtures(each.season, each.plan)
        for was, now in each.pairs:
            if was is not None and now is None:
                missed[was] += 1
            elif was is not None and now is not None and reached is not None:
                scores[was].append(reached[now].score)
    base = at_fixtures(season, plan)
    return tuple(
        HighFixture(fixture, at.score, spread(scores[fixture]), missed[fixture])
        for fixture, at in base.items()
        if fixture.priority.great
    )


def _round_name(number: int, fixture: Fixture) -> str:
    name = fixture.competition or fixture.opponent or f"Cup round {number}"
    return f"{name} ({fixture.date})"


def _played(number: int) -> Callable[[FutureOutcome], bool]:
    return lambda each: each.drawn.rounds >= number


def _hurt(
    what: str,
    lived: Sequence[FutureOutcome],
    scores: Sequence[float | None],
    has: Callable[[FutureOutcome], bool],
) -> Hurt:
    inside = [score for each, score in zip(lived, scores, strict=True) if has(each)]
    outside = [score for each, score in zip(lived, scores, strict=True) if not has(each)]
    with_it = [score for score in inside if score is not None]
    without = [score for score in outside if score is not None]
    enough = min(len(with_it), len(without)) >= ENOUGH
    return Hurt(
        what=what,
        count=len(inside),
        points=float(np.mean(with_it) - np.mean(without)) if enough else None,
        clashes=sum(has(each) and each.status == "clash" for each in lived),
    )


def _put_off(
    season: Season, lived: Sequence[FutureOutcome], scores: Sequence[float | None]
) -> tuple[Hurt, ...]:
    """Return the postponed fixtures that hurt most: by clashes, then by points."""
    found = []
    for fixture in season.fixtures:
        hurt = _hurt(
            f"{fixture.name} ({fixture.date})",
            lived,
            scores,
            lambda each, day=fixture.date: any(old == day for old, _ in each.drawn.put_off),  # type: ignore[misc]
        )
        if hurt.clashes or (hurt.points is not None and hurt.points < 0):
            found.append(hurt)
    found.sort(key=lambda hurt: (-hurt.clashes, hurt.points or 0.0))
    return tuple(found[:MOST])


def _weeks(season: Season, plan: Plan, lived: Sequence[FutureOutcome]) -> tuple[HurtWeek, ...]:
    planned = [each for each in lived if each.plan is not None]
    if not planned:
        return ()
    base = np.array(readiness(season, plan)[0])
    there = np.array([readiness(each.season, each.plan)[0] for each in planned if each.plan])
    lost = base - there.mean(axis=0)
    worst = [int(week) for week in np.argsort(-lost, kind="stable")[:MOST] if lost[week] > 0.05]
    return tuple(
        HurtWeek(
            week,
            float(lost[week]),
            sum(
                len(each.season.weeks[week].fixtures) > len(season.weeks[week].fixtures)
                for each in lived
            ),
        )
        for week in worst
    )
