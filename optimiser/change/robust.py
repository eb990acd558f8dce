"""One plan for several futures: shared until they part, and a branch for each after."""

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from joblib import Parallel, delayed

from optimiser.board.board import Board
from optimiser.board.outline import Arc
from optimiser.change.ceiling import match_ceiling
from optimiser.change.decided import Decided
from optimiser.change.freeze import board_from
from optimiser.change.near import solve_near
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season, Week
from optimiser.domain.setup_error import SetupError
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import solve_season
from optimiser.review.audit import must_breaches
from optimiser.review.score import match_score
from optimiser.rule import Rule

Aim = Literal["weighted", "worst"]


@dataclass(frozen=True)
class Future:
    """One way the season may go; ``share`` is its weight, all of them adding up to 1.

    Parameters
    ----------
    decided
        What is over, in a season in progress.
    """

    name: str
    share: float
    season: Season
    rules: tuple[Rule, ...]
    decided: Decided | None = None

    @property
    def over(self) -> int:
        """Return how many weeks are over, the same in every future."""
        return self.decided.weeks if self.decided else 0


@dataclass(frozen=True)
class Branch:
    """The plan of one future: the shared weeks, then its own.

    Parameters
    ----------
    match
        Match score of the plan, 0-100.
    alone
        Match score of the plan made for this future alone; less ``match``, the price of hedging.
    ceiling
        A match score that no legal plan of this future exceeds, proven.
    """

    future: Future
    plan: Plan
    match: float
    alone: float
    ceiling: float


@dataclass(frozen=True)
class Hedged:
    """A shared plan with its branches.

    Parameters
    ----------
    branch_week
        Index from 0 of the first week that is no longer shared.
    source
        Name of the future the shared weeks were taken from.
    value, bound
        The aim reached, and a value no plan exceeds whatever the shared weeks are.
    tried
        Shared beginnings that were tried, and how many of them all futures can keep.
    """

    aim: Aim
    branch_week: int
    branches: tuple[Branch, ...]
    source: str
    value: float
    bound: float
    tried: tuple[int, int]
    seconds: float

    @property
    def gap(self) -> float:
        """Return how far the value may be from the best one, as a share of the bound."""
        return max(0.0, (self.bound - self.value) / self.bound) if self.bound else 0.0


class NoSharedPlanError(Exception):
    """No shared beginning was found; ``clash`` names a future that has no plan at all."""

    def __init__(self, clash: str | None = None) -> None:
        super().__init__(clash or "no shared beginning")
        self.clash = clash


def branch_week(futures: Sequence[Future], given: int | None = None) -> int:
    """Return the first week (index from 0) in which futures differ, or the one given.

    Parameters
    ----------
    given
        Index from 0; it must not come after the first difference.

    Raises
    ------
    SetupError
        If nothing differs, or only rules do and no week is given.
    """
    weeks = len(futures[0].season.weeks)
    differ = next((w for w in range(weeks) if _differ(futures, w)), None)
    if given is not None:
        if given < futures[0].over:
            must = f"must be at least {futures[0].over + 1}, the first week that is not over"
            raise SetupError("branch_week", must, str(given + 1), "name a later week")
        latest = weeks - 1 if differ is None else differ
        if given > latest:
            must = f"must be at most {latest + 1}, the first week in which the futures differ"
            raise SetupError("branch_week", must, str(given + 1), "name an earlier week")
        return given
    if differ is None:
        must = "must differ in a fixture or a break, or branch_week must say when they part"
        raise SetupError("futures", must, "the same calendar in all of them", "add branch_week")
    return differ


def _differ(futures: Sequence[Future], week: int) -> bool:
    return any(
        _calendar(a.season.weeks[week]) != _calendar(b.season.weeks[week])
        for a, b in pairwise(futures)
    )


def _calendar(week: Week) -> object:
    """Return what is given in a week; targets look ahead and are left out."""
    return week.model_copy(update={"target": 0.0})


def hedge(
    futures: Sequence[Future],
    aim: Aim,
    week: int,
    settings: Settings,
    quick: Settings,
    *,
    jobs: int = 1,
    told: Callable[[str], None] = lambda words: None,
) -> Hedged:
    """Return the best shared beginning found, with a branch for each future.

    Beginnings are those of each future's own plan, and of plans that keep every future's rules in
    the shared weeks. Each is tried in every future.

    Parameters
    ----------
    settings, quick
        For the first plan, and for all that are made near it.
    told
        Called with words about how far it is.

    Raises
    ------
    NoSharedPlanError
        If a future has no plan, or no beginning was found that all can keep.
    """
    began = time.perf_counter()
    told("the likeliest future")
    lead = _lead(max(futures, key=lambda future: future.share), settings)
    with Parallel(n_jobs=jobs) as pool:
        told("each future on its own")
        known = _known(pool, futures, lead, week, quick)
        starts = _beginnings(futures, [*known.alone, *known.joint], week)
        told(f"{len(starts)} shared beginnings in {len(futures)} futures")
        tried = _tried(pool, futures, known.alone, [plan for _, plan in starts], week, quick)
    names = [source for source, _ in starts]
    legal = [(name, plans) for name, plans in zip(names, tried, strict=True) if plans is not None]
    if not legal:
        raise NoSharedPlanError
    source, best = max(legal, key=lambda item: _value(aim, futures, _scores(futures, item[1])))
    return Hedged(
        aim=aim,
        branch_week=week,
        branches=_branches(futures, best, known),
        source=source,
        value=_value(aim, futures, _scores(futures, best)),
        bound=_value(aim, futures, known.ceilings),
        tried=(len(starts), len(legal)),
        seconds=time.perf_counter() - began,
    )


@dataclass(frozen=True)
class _Known:
    """Plans of each future alone, plans whose shared weeks suit all, and ceilings."""

    alone: list[Plan]
    joint: list[Plan | None]
    ceilings: list[float]


def _known(
    pool: Parallel, futures: Sequence[Future], lead: Plan, week: int, quick: Settings
) -> _Known:
    found = pool(
        [
            *(delayed(_alone)(future, lead, quick) for future in futures),
            *(delayed(_joint)(futures, i, lead, week, quick) for i in range(len(futures))),
            *(delayed(match_ceiling)(f.season, f.rules, f.decided) for f in futures),
        ]
    )
    count = len(futures)
    lacking = [f.name for f, plan in zip(futures, found[:count], strict=True) if plan is None]
    if lacking:
        raise NoSharedPlanError(lacking[0])
    return _Known(found[:count], found[count : 2 * count], found[2 * count :])


def _tried(
    pool: Parallel,
    futures: Sequence[Future],
    alone: Sequence[Plan],
    starts: Sequence[Plan],
    week: int,
    quick: Settings,
) -> list[list[Plan] | None]:
    """Return every beginning's plans, one a future, or None where a future cannot keep it."""
    count = len(futures)
    plans = pool(
        delayed(_continued)(future, own, start, week, quick)
        for start in starts
        for future, own in zip(futures, alone, strict=True)
    )
    each = [plans[first : first + count] for first in range(0, len(plans), count)]
    return [None if None in group else group for group in each]


def _branches(
    futures: Sequence[Future], plans: Sequence[Plan], known: _Known
) -> tuple[Branch, ...]:
    return tuple(
        Branch(future, plan, _match(future, plan), _match(future, own), top)
        for future, plan, own, top in zip(futures, plans, known.alone, known.ceilings, strict=True)
    )


def _lead(future: Future, settings: Settings) -> Plan:
    season, rules, decided = future.season, future.rules, future.decided
    if decided is None:
        plan = solve_season(season, rules, settings).plan
    else:
        plan = solve_near(season, rules, decided.past, settings, decided).plan
    if plan is None:
        raise NoSharedPlanError(future.name)
    return plan


def _value(aim: Aim, futures: Sequence[Future], scores: Sequence[float]) -> float:
    if aim == "worst":
        return min(scores)
    return sum(future.share * score for future, score in zip(futures, scores, strict=True))


def _scores(futures: Sequence[Future], plans: Sequence[Plan]) -> list[float]:
    return [_match(future, plan) for future, plan in zip(futures, plans, strict=True)]


def _match(future: Future, plan: Plan) -> float:
    return match_score(future.season, plan).score or 0.0


def _beginnings(
    futures: Sequence[Future], plans: Sequence[Plan | None], week: int
) -> list[tuple[str, Plan]]:
    """Return different shared beginnings, each with the name of the future it came from."""
    found: dict[object, tuple[str, Plan]] = {}
    for number, plan in enumerate(plans):
        if plan is not None:
            key = chosen_before(plan, week)
            found.setdefault(key, (futures[number % len(futures)].name, plan))
    return list(found.values())


def chosen_before(plan: Plan, week: int) -> object:
    """Return what a plan chooses before ``week``, to be compared."""
    starts = tuple(start for start in plan.starts if start < week)
    rows = tuple(row[:week] for row in (*plan.rungs, *plan.doses, plan.field, plan.gym))
    return starts, rows


# --- work of one process --------------------------------------------------------------------


def _alone(future: Future, lead: Plan, settings: Settings) -> Plan | None:
    """Plan one future as if it were certain."""
    return solve_near(future.season, future.rules, lead, settings, future.decided).plan


def _joint(
    futures: Sequence[Future], index: int, lead: Plan, week: int, settings: Settings
) -> Plan | None:
    """Plan one future, with the rules of all of them kept in the shared weeks."""
    here = futures[index]
    others = [future for number, future in enumerate(futures) if number != index]

    def also(board: Board) -> None:
        for other in others:
            keep_too(board, board_from(other.season, other.rules, other.decided), week)

    return solve_near(here.season, here.rules, lead, settings, here.decided, also=also).plan


def _continued(
    future: Future, own: Plan, start: Plan, week: int, settings: Settings
) -> Plan | None:
    """Plan one future after a shared beginning; None if the beginning breaks a rule in it.

    What its own plan cannot keep either, after what was done, is no reason against a beginning.
    """
    if chosen_before(own, week) == chosen_before(start, week):
        return own
    near = solve_near(future.season, future.rules, own, settings, Decided(start, week))
    if near.plan is None:
        return None
    return near.plan if _broken(future, near.plan) <= _broken(future, own) else None


def _broken(future: Future, plan: Plan) -> set[tuple[str, int | None, str | None, str]]:
    """Return where a plan breaks rules that must hold, from today on."""
    found = must_breaches(future.season, future.rules, plan, future.over)
    return {(breach.rule, breach.week, breach.quality, breach.part) for breach in found}


def keep_too(board: Board, other: Board, week: int) -> None:
    """Ask of a board what another one asks of the weeks before ``week``.

    Rows are carried over by the names of their variables; a row with a variable the board does not
    have is left to the other future.
    """
    place = {name: var for var, name in enumerate(board.model.names)}
    for row in other.model.rows:
        tag = row.tag
        if tag is None or tag.price is not None or tag.week is None or tag.week >= week:
            continue
        names = [other.model.names[var] for var in row.terms]
        when = None if row.when is None else place.get(other.model.names[row.when])
        if (row.when is not None and when is None) or not all(name in place for name in names):
            continue
        terms = {place[n]: f for n, f in zip(names, row.terms.values(), strict=True)}
        if row.high is not None:
            board.model.at_most(terms, row.high, tag, when=when, unit=row.unit)
        else:
            board.model.at_least(terms, row.low or 0, tag, when=when, unit=row.unit)
    _close_too(board, other, week)


def _close_too(board: Board, other: Board, week: int) -> None:
    """Close the shared blocks and rungs that are not open in the other future."""
    for arc, var in board.arcs.items():
        if arc.stop <= week and arc not in other.arcs:
            board.model.fix(var, 0)
    for (quality, arc, rung, _, _), var in board.steps.items():
        if arc.stop <= week and not _has_step(other, quality, arc, rung):
            board.model.fix(var, 0)


def _has_step(board: Board, quality: int, arc: Arc, rung: int) -> bool:
    return any(
        (quality, arc, rung, into, out) in board.steps for into, out in ((0, 0), (0, 1), (1, 1))
    )
