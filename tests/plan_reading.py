"""How a plan reads to a coach: its weeks of usual work, shares of minutes, runs of one band.

Used by the benchmark of it and by the tests, so that both mean the same.
"""

from collections.abc import Collection, Iterable, Sequence
from itertools import groupby, pairwise
from statistics import mean

from optimiser.domain.plan import Plan
from optimiser.domain.season import Phase, Season
from optimiser.review.score import training_load
from optimiser.rule import Rule


def loading_weeks(season: Season, rules: Iterable[Rule], plan: Plan) -> list[int]:
    """Return the open weeks that are neither a deload nor a taper."""
    eased = {week for rule in rules for week in rule.marks(plan, season)}
    return [w.index for w in season.weeks if not w.closed and w.index not in eased]


def usual_weeks(season: Season, weeks: Iterable[int]) -> list[int]:
    """Return those of some weeks that have one match or none."""
    return [week for week in weeks if len(season.weeks[week].fixtures) < 2]


def dose_changes(season: Season, plan: Plan, usual: Collection[int]) -> float | None:
    """Return which share of doses differs between like neighbouring weeks of a block."""
    pairs = [
        (before, now)
        for block in plan.blocks()
        for before, now in pairwise(block)
        if before in usual
        and now in usual
        and len(season.weeks[before].fixtures) == len(season.weeks[now].fixtures)
    ]
    same = [row[before] is row[now] for row in plan.doses for before, now in pairs]
    return same.count(False) / len(same) if same else None


def own_load(season: Season, plan: Plan, weeks: Iterable[int], phase: Phase) -> float | None:
    """Return the mean own load, in AU, of those of some weeks that are in a phase."""
    found = [training_load(season, plan, w) for w in weeks if season.weeks[w].phase is phase]
    return mean(found) if found else None


def strength_share(season: Season, plan: Plan, weeks: Sequence[int]) -> float | None:
    """Return the share of own minutes that general and maximal strength take."""
    whole = _minutes(season, plan, weeks, "")
    return _minutes(season, plan, weeks, "strength") / whole if whole else None


def longest_run(rungs: Iterable[int | None]) -> int:
    """Return for how many weeks a quality stays on one band, closed weeks left out."""
    return max(len(list(run)) for _, run in groupby(r for r in rungs if r is not None))


def _minutes(season: Season, plan: Plan, weeks: Sequence[int], ends: str) -> float:
    """Return the minutes of the qualities whose key ends so."""
    return sum(
        quality.minutes(doses[week], rungs[week])
        for quality, doses, rungs in zip(season.qualities, plan.doses, plan.rungs, strict=True)
        for week in weeks
        if quality.key.endswith(ends)
    )
