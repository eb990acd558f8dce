"""From a season and its rules to a plan: emphasis first, doses second, each with its bound."""

import time
from collections.abc import Callable, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass, field, replace
from math import ceil, isfinite
from threading import Event
from typing import Literal

from optimiser.board.board import Board
from optimiser.board.model import Model
from optimiser.board.outline import Outline
from optimiser.certify import confirmed
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.engine.branch import STEPS, Limits
from optimiser.engine.compact import Compact, compact
from optimiser.engine.face import search_face
from optimiser.engine.parts import Weekly, search_by_parts
from optimiser.engine.relaxation import Relaxed, relaxation
from optimiser.engine.search import Effort, Found, minimise
from optimiser.engine.twice import short_first
from optimiser.engine.value import value_of
from optimiser.objective import (
    TENTH,
    Prices,
    emphasis_value,
    price_emphasis,
    price_readiness,
    readiness_value,
)
from optimiser.rule import Rule

StageStatus = Literal["proven", "within_gap", "stopped"]

#: Gap up to which a stage counts as within the gap.
SMALL_GAP = 0.01
#: Wall-clock guard of a stage that is searched to its end, and an effort that never binds.
LONG, ENDLESS = 600.0, 1e6
#: Weeks of a usual season; the polish of a longer one has more to go through.
YEAR = 52
#: Variables of a model above which its relaxation is solved first, not beside the search.
LARGE = 8000
#: Deterministic limit of a first search with little presolve.
LIGHT = 2.0
#: Rounding of the search's bound, far below the one unit by which costs differ.
BOUND_SLIP = 1e-4


@dataclass(frozen=True)
class Settings:
    """How to solve.

    Parameters
    ----------
    seed
        Same seed, same plan.
    fast
        Two racing workers: often sooner, not repeatable.
    seconds
        Wall-clock guard of each stage; normally the deterministic limits bind first.
    emphasis_effort, dose_effort, polish_effort
        Deterministic limits of the two stages and of the window-by-window polish of the second.
    close
        Gap of the second stage at which it is good enough.
    beyond
        Share of the second stage's effort within which a search that has reached ``close`` goes on.
    workers
        Threads of branch and bound over doses.
    certify
        Confirm each proof with a second solver configuration.
    """

    seed: int = 0
    fast: bool = False
    seconds: float = 60.0
    emphasis_effort: float = 20.0
    dose_effort: float = 4.4
    polish_effort: float = 2.0
    close: float = 0.0048
    beyond: float = 0.6
    workers: int = 2
    prices: Prices = field(default_factory=Prices)
    certify: bool = False

    def to_the_end(self, seconds: float | None = None) -> "Settings":
        """Return settings whose searches end with a proof, or with the time.

        Parameters
        ----------
        seconds
            Wall-clock guard of each stage, if not the usual one of ten minutes.
        """
        guard = LONG if seconds is None else seconds
        return replace(self, seconds=guard, emphasis_effort=ENDLESS, dose_effort=ENDLESS, close=0.0)

    def effort(self, deterministic: float, *, second: bool = False) -> Effort:
        """Return the effort of one stage."""
        workers = 2 if self.fast else 1
        seed = self.seed + 1000 if second else self.seed
        return Effort(deterministic, self.seconds, workers, seed)

    def limits(self, share: float = 1.0) -> Limits:
        """Return the limits of branch and bound over doses, or of a share of it."""
        most = round(STEPS * share * self.dose_effort)
        return Limits(
            gap=self.close,
            least=round(self.beyond * most),
            most=most,
            seconds=self.seconds,
            seed=self.seed,
            workers=self.workers,
        )


@dataclass(frozen=True)
class Stage:
    """What one stage reached.

    Parameters
    ----------
    objective, bound
        Recomputed cost of the plan, and the best proven lower bound.
    gap
        ``(objective - bound) / objective``; 0.01 is one per cent.
    confirmed
        Whether another solver came to the same end; None if there was no proof to ask it about, or
        nobody asked.
    """

    name: str
    status: StageStatus
    objective: int
    bound: float
    gap: float
    seconds: float
    deterministic_time: float
    confirmed: bool | None = None


@dataclass(frozen=True)
class Progress:
    """A better plan was found; the plan itself comes once, when its stage is over."""

    stage: str
    seconds: float
    objective: float
    bound: float
    plan: Plan | None = None


@dataclass(frozen=True)
class Outcome:
    """A plan with its proof, or why there is none.

    Parameters
    ----------
    status
        ``clash``: proven that no plan keeps the rules. ``out_of_time``: no plan was found in time,
        which proves nothing.
    stopped
        True if the search was interrupted.
    """

    status: Literal["planned", "clash", "out_of_time"]
    plan: Plan | None
    stages: tuple[Stage, ...]
    seconds: float
    stopped: bool = False


Watch = Callable[[Progress], None]


def make_board(season: Season, rules: Sequence[Rule], *, soft: bool = False) -> Board:
    """Return the board of a season with every rule posted.

    Parameters
    ----------
    soft
        Keep everything that rules forbid as tagged rows, to be argued about.
    """
    outline = Outline(season, soft)
    for rule in rules:
        rule.shape(outline)
    board = Board(outline)
    for rule in rules:
        rule.post(board)
    return board


def solve_season(
    season: Season,
    rules: Sequence[Rule],
    settings: Settings | None = None,
    *,
    watch: Watch | None = None,
    start: Plan | None = None,
) -> Outcome:
    """Find the best plan and say how well it is proven.

    Parameters
    ----------
    watch
        Called with each better plan found.
    start
        A plan to start from; it need not be legal.
    """
    settings = settings or Settings()
    began = time.perf_counter()
    board = make_board(season, rules)
    judge = Judge(season, rules, settings)
    price_emphasis(board, settings.prices)
    hint = board.hint(start) if start else None
    effort = settings.effort(settings.emphasis_effort)
    found, relaxed = search_bounded(board.model, effort, hint, teller(watch, "emphasis", began))
    if not found.values:
        status: Literal["clash", "out_of_time"] = (
            "clash" if found.status == "infeasible" else "out_of_time"
        )
        early = status == "out_of_time" and found.cut_short
        return Outcome(status, None, (), time.perf_counter() - began, stopped=early)
    plan = board.read(found.values)
    first = judge.stage("emphasis", found, judge.emphasis(plan), board.model, relaxed)
    if watch:
        since = time.perf_counter() - began
        watch(Progress("emphasis", since, first.objective, first.bound, plan))
    if found.cut_short or judge.stopped:
        return Outcome("planned", plan, (first,), time.perf_counter() - began, stopped=True)
    plan, second, stopped = _doses(
        board, plan, judge, settings, teller(watch, "doses", began), start
    )
    return Outcome("planned", plan, (first, second), time.perf_counter() - began, stopped)


def _doses(
    board: Board,
    plan: Plan,
    judge: "Judge",
    settings: Settings,
    told: Callable[[float, float, float], None] | None,
    start: Plan | None,
) -> tuple[Plan, Stage, bool]:
    """Choose the doses for the bands of ``plan``: search, then improve window by window."""
    board.pin_blocks(plan)
    price_readiness(board, settings.prices, plan)
    small = compact(board.model)
    same = start is not None and start.rungs == plan.rungs and start.starts == plan.starts
    # the doses of stage 1 are arbitrary: as a hint they mislead the search
    hint = small.shrink(board.hint(start)) if same and start else None
    parts = weekly(board, small, settings)
    found = search_by_parts(small.model, parts, settings.limits(), hint=hint, watch=told)
    missed = found.status == "unknown" and not found.cut_short
    if missed:
        found = first_doses(board, small, plan, found, settings)
        found = polish_doses(board, small, found, settings)
    better = board.read(small.expand(found.values)) if found.values else plan
    stage = judge.stage("doses", found, judge.readiness(better), board.model)
    return better, stage, found.cut_short or judge.stopped


def weekly(board: Board, small: Compact, settings: Settings) -> Weekly:
    """Return what windows of a season's doses may change, and their limits."""
    place = {old: new for new, old in enumerate(small.kept)}
    weeks = range(len(board.season.weeks))
    groups = [[place[var] for var in board.week_choices(week) if var in place] for week in weeks]
    longer = max(1.0, len(weeks) / YEAR)
    return Weekly(groups, settings.effort(settings.polish_effort * longer))


def first_doses(
    board: Board, small: Compact, plan: Plan, missed: Found, settings: Settings
) -> Found:
    """Fall back on the doses of stage 1, which keep every rule, when the search found none."""
    model = replace(board.model, lower=list(board.model.lower), upper=list(board.model.upper))
    held = board.hint(plan)
    for week in board.open_weeks():
        for var in board.week_choices(week):
            model.fix(var, held[var])
    found = minimise(model, settings.effort(2.0))
    if not found.values:
        return missed
    values = [found.values[var] for var in small.kept]
    return replace(missed, status="feasible", values=values, objective=found.objective)


def polish_doses(board: Board, small: Compact, found: Found, settings: Settings) -> Found:
    """Improve a solution by solving a few weeks at a time, unless it is near its bound."""
    if found.near(settings.close):
        return found
    began = time.perf_counter()
    try:
        values = weekly(board, small, settings).better(small.model, found.values)
    except KeyboardInterrupt:
        return replace(found, cut_short=True)
    took = found.seconds + time.perf_counter() - began
    return replace(found, values=values, objective=value_of(small.model, values), seconds=took)


def search_bounded(
    model: Model,
    effort: Effort,
    hint: dict[int, int] | None,
    told: Callable[[float, float, float], None] | None,
) -> tuple[Found, Relaxed]:
    """Search for a plan while the linear relaxation is solved beside it, or first if it is large.

    Beside, it ends with a search that closed, as no bound is better than that of an optimum.
    """
    small = compact(model)
    light = replace(effort, deterministic=min(LIGHT, effort.deterministic), presolve="light")
    both = None
    if len(small.kept) > LARGE:
        both = search_face(small.model, replace(light, presolve="none"), told)
    if both is None:
        start = small.shrink(hint) if hint else None
        both = _search_beside(small.model, light, effort, start, told)
    found, relaxed = both
    return replace(found, values=small.expand(found.values) if found.values else []), relaxed


def _search_beside(
    model: Model,
    light: Effort,
    effort: Effort,
    hint: dict[int, int] | None,
    told: Callable[[float, float, float], None] | None,
) -> tuple[Found, Relaxed]:
    closed = Event()
    with ThreadPoolExecutor(1) as pool:
        beside: Future[Relaxed] = pool.submit(relaxation, model, effort.seconds, halt=closed.is_set)
        found = short_first(model, light, effort, hint=hint, watch=told)
        if found.closed:
            closed.set()
        return found, beside.result()


def teller(
    watch: Watch | None, stage: str, began: float
) -> Callable[[float, float, float], None] | None:
    """Return what tells ``watch`` of better solutions of one stage, with time since ``began``."""
    if watch is None:
        return None
    return lambda _, objective, bound: watch(
        Progress(stage, time.perf_counter() - began, objective, bound)
    )


def whole_bound(bound: float) -> float:
    """Return the whole number a bound stands for: costs are whole, 448.00000000000006 is 448."""
    return float(ceil(bound - BOUND_SLIP)) if isfinite(bound) else 0.0


class Judge:
    """Works out objectives from plans alone and says what is proven.

    Attributes
    ----------
    stopped
        True once Ctrl-C was pressed while a proof was confirmed.
    """

    def __init__(self, season: Season, rules: Sequence[Rule], settings: Settings) -> None:
        self.season, self.rules, self.settings = season, rules, settings
        self.stopped = False

    def broken(self, plan: Plan) -> bool:
        """Tell whether a plan breaks a rule that must hold."""
        return any(rule.audit(plan, self.season) for rule in self.rules if rule.price is None)

    def paid(self, plan: Plan) -> int:
        """Return what a plan pays for priced rules."""
        return sum(
            rule.price * breach.excess
            for rule in self.rules
            if rule.price is not None
            for breach in rule.audit(plan, self.season)
        )

    def emphasis(self, plan: Plan) -> tuple[int, bool]:
        """Return stage 1's objective of a plan, and whether it keeps every rule."""
        value = emphasis_value(self.season, self.settings.prices, plan)
        return value + self.paid(plan), not self.broken(plan)

    def readiness(self, plan: Plan) -> tuple[int, bool]:
        """Return stage 2's objective of a plan, and whether it keeps every rule."""
        value = readiness_value(self.season, self.settings.prices, plan)
        return value + TENTH * self.paid(plan), not self.broken(plan)

    def stage(
        self,
        name: str,
        found: Found,
        judged: tuple[int, bool],
        model: Model,
        relaxed: Relaxed | None = None,
    ) -> Stage:
        """Return the stage's record; a bound from a relaxation beside it counts too."""
        objective, clean = judged
        searched = whole_bound(found.bound) if found.values else 0.0
        bound = max(searched, float((relaxed and relaxed.bound) or 0))
        gap = max(0.0, (objective - bound) / max(1, objective))
        closed = found.status == "optimal" or objective <= bound
        agrees = found.objective == objective or found.objective is None
        sound = clean and bound <= objective and (agrees or found.status == "feasible")
        again = self._confirmed(name, model, objective) if closed and sound else None
        if closed and sound and again is not False:
            status: StageStatus = "proven"
        else:
            status = "within_gap" if clean and gap <= SMALL_GAP else "stopped"
        took = max(found.seconds, relaxed.seconds if relaxed else 0.0)
        return Stage(name, status, objective, bound, gap, took, found.deterministic, again)

    def _confirmed(self, name: str, model: Model, objective: int) -> bool | None:
        """Ask another solver, if wanted, whether anything better exists."""
        if not self.settings.certify or self.stopped:
            return None
        try:
            return confirmed(name, model, objective, self.settings.effort(60.0, second=True))
        except KeyboardInterrupt:
            self.stopped = True
            return False
