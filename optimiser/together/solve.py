"""Search a season as one: start from bands alone, improve by windows, then bound the whole."""

import time
from collections.abc import Sequence
from dataclasses import dataclass, replace

from optimiser.board.board import Board
from optimiser.board.model import Model
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.engine.branch import Limits, branch
from optimiser.engine.compact import Compact, compact
from optimiser.engine.search import Effort, Found
from optimiser.engine.value import value_of
from optimiser.engine.windows import Window, improve
from optimiser.objective import price_emphasis
from optimiser.rule import Rule
from optimiser.solve import Outcome, Settings, Watch, make_board, search_bounded, teller
from optimiser.together.price import price_season
from optimiser.together.rates import Rates
from optimiser.together.verdict import Verdict, judged

#: Weeks of the windows of each round; they overlap by half.
WIDTHS = (10, 16)
#: Open weeks up to which a season is searched at once.
SHORT = 16
#: How far one window is searched: better by less than this is left to the tree.
EACH = Window(nodes=30, gap=0.002, guard=600.0)
#: Deterministic limit of the windows: two rounds of a year take less.
WINDOWS = 400.0
#: Gap at which a usual search ends.
CLOSE = 0.01
#: Steps of a usual search's tree.
STEPS = 400


@dataclass(frozen=True)
class Whole:
    """A season's plan and what is proven of it; no plan where the rules clash or time ran out."""

    outcome: Outcome
    verdict: Verdict | None


def solve_together(
    season: Season,
    rules: Sequence[Rule],
    settings: Settings | None = None,
    *,
    rates: Rates | None = None,
    watch: Watch | None = None,
    start: Plan | None = None,
) -> Whole:
    """Find the best plan over blocks, bands, doses and sessions together.

    Parameters
    ----------
    watch
        Called with each better plan found.
    start
        A legal plan to start from; left out, one of the best bands.
    """
    settings, rates = settings or Settings(), rates or Rates()
    began = time.perf_counter()
    board = make_board(season, rules)
    first = Outcome("planned", start, (), 0.0) if start else _start(board, settings, watch)
    if first.plan is None or first.stopped:
        return Whole(first, None)
    price_season(board, rates)
    found = _search(board, first.plan, settings, watch, began)
    plan = board.read(found.values) if found.values else first.plan
    found = replace(found, seconds=time.perf_counter() - began)
    verdict = judged(season, rules, plan, found, rates, _close(settings))
    return Whole(Outcome("planned", plan, (), found.seconds, found.cut_short), verdict)


def _start(board: Board, settings: Settings, watch: Watch | None) -> Outcome:
    """Return the plan of the best blocks and bands; its doses keep the rules, no more."""
    began = time.perf_counter()
    price_emphasis(board, settings.prices)
    told = teller(watch, "bands", began)
    found, _ = search_bounded(board.model, settings.effort(settings.emphasis_effort), None, told)
    took = time.perf_counter() - began
    if found.values:
        return Outcome("planned", board.read(found.values), (), took, found.cut_short)
    clash = found.status == "infeasible"
    return Outcome("clash" if clash else "out_of_time", None, (), took, found.cut_short)


def _search(
    board: Board, plan: Plan, settings: Settings, watch: Watch | None, began: float
) -> Found:
    small = compact(board.model)
    values = _values(board, small, plan)
    told = teller(watch, "whole season", began)
    if len(board.open_weeks()) <= SHORT:
        # windows would be as large as the season
        limits = replace(_limits(settings), seek=True, restarts=True)
        hint = dict(enumerate(values))
        return _found(board, small, values, branch(small.model, limits, hint=hint, watch=told))
    groups = _groups(board, small)
    effort = Effort(WINDOWS, settings.seconds, 1, settings.seed)
    try:
        values, _ = improve(small.model, values, groups, effort, widths=WIDTHS, each=EACH)
    except KeyboardInterrupt:
        return _found(board, small, values, None)
    if told:
        told(0.0, float(value_of(small.model, values)), 0.0)
    hint = dict(enumerate(values))
    searched = branch(small.model, _limits(settings), hint=hint, watch=told)
    return _found(board, small, values, searched)


def _close(settings: Settings) -> float:
    return CLOSE if settings.close else 0.0


def _limits(settings: Settings) -> Limits:
    most = STEPS if settings.close else round(STEPS * settings.dose_effort)
    return Limits(
        gap=_close(settings),
        least=0,
        most=most,
        seconds=settings.seconds,
        seed=settings.seed,
        workers=settings.workers,
        seek=False,
        restarts=False,
    )


def _values(board: Board, small: Compact, plan: Plan) -> list[int]:
    """Return a value for every variable that is left, of a plan that keeps the rules."""
    held = board.hint(plan)
    lower, upper = list(small.model.lower), list(small.model.upper)
    for var, value in small.shrink(held).items():
        lower[var] = upper[var] = value
    fixed = replace(small.model, lower=lower, upper=upper)
    inner = compact(fixed)
    found = branch(inner.model, Limits(gap=0.0, most=100, workers=1))
    return inner.expand(found.values)


def _groups(board: Board, small: Compact) -> list[list[int]]:
    """Return the choices of each week; what spans weeks is in the group of each of them."""
    place = {old: new for new, old in enumerate(small.kept)}
    groups: list[list[int]] = [[] for _ in board.season.weeks]
    spanning = list(board.arcs.items())
    spanning += [(key[1], var) for key, var in board.steps.items()]
    for arc, var in spanning:
        if var in place:
            for week in arc.weeks:
                groups[week].append(place[var])
    for week in board.open_weeks():
        groups[week] += [place[var] for var in board.week_choices(week) if var in place]
    return groups


def _found(board: Board, small: Compact, values: list[int], searched: Found | None) -> Found:
    """Return the better of two solutions with the bound, over the variables of the board."""
    best = _best(small.model, values, searched)
    cost = value_of(small.model, best)
    if searched is None:
        return Found("feasible", small.expand(best), cost, 0.0, 0.0, 0.0, False, True)
    return replace(searched, values=small.expand(best), objective=cost)


def _best(model: Model, values: list[int], searched: Found | None) -> list[int]:
    if searched is None or not searched.values:
        return values
    return min(values, searched.values, key=lambda each: value_of(model, each))
