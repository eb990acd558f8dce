"""The one driver of a search: improve a solution, then bound the whole model by its tree."""

import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from optimiser.board.model import Model
from optimiser.engine.branch_and_bound import SearchLimits, branch_and_bound
from optimiser.engine.cp_sat_search import Found, Status, Watch
from optimiser.engine.large_neighbourhood_search import Mask, Neighbourhoods, Reach, Relaxation
from optimiser.engine.objective import value_of
from optimiser.engine.presolve import presolved
from optimiser.engine.reduced_cost_fixing import without_dearer
from optimiser.joint_model.effort import STEPS, Settings

#: Weeks up to which a season is searched to its end, which is as soon done as any gap is reached,
#: and with no less effort than is usual: it takes a second or two.
SHORT = 16
#: Weeks of a window; windows overlap by half.
WINDOW = 10
#: Share of the choices that is searched first: measured on seasons of a year.
FIRST = 0.25
#: What is better by less than its share of the cost is left to the tree.
EACH = Reach(nodes=30, gap=0.002)
#: Weeks from which on windows of twice the width follow, searched more closely: half a per cent
#: that the tree of two years begins nearer to its end spares it half its time.
LONG = 60
CLOSELY = Reach(nodes=30, gap=0.0005)
WIDE = Reach(nodes=100, gap=0.005, seek=True)
#: Share of the cost that may be gained by which windows are worth their time: nearer to the bound
#: none was seen to gain.
FAR = 0.03
#: Shares of the choices among which a first solution is looked for, until there is one: where
#: there is none, that is soon seen.
SHARES = (0.5, 0.6, 0.7)
FIRST_OF_ALL = Reach(nodes=10, gap=0.03, seek=True)
#: No solution, which is no statement.
NONE = Found("unknown", [], None, 0.0, 0.0, 0.0)
#: Seconds between two better solutions that are shown before the search has ended.
APART = 2.0
#: Shown a better solution, with the bound there is by then.
Better = Callable[[Found], None]


@dataclass
class _Best:
    """The best solution so far, and the best bound."""

    model: Model
    values: list[int]
    watch: Watch | None
    began: float
    better: Better | None = None
    bound: float = 0.0
    shown: float = 0.0
    news: bool = True
    relaxed: Relaxation | None = None

    @property
    def cost(self) -> int:
        return value_of(self.model, self.values)

    def take(self, values: list[int]) -> None:
        """Keep a solution if it is better, and tell of it."""
        if value_of(self.model, values) < self.cost:
            self.values, self.news = values, True
            self.tell()

    def show(self, apart: float = APART) -> None:
        """Show the solution if it is another than the last one shown, not too often."""
        now = time.perf_counter()
        if self.better is not None and self.news and now - self.shown >= apart:
            self.better(self.found())
            self.shown, self.news = time.perf_counter(), False

    def tell(self) -> None:
        if self.watch is not None:
            self.watch(time.perf_counter() - self.began, float(self.cost), self.bound)

    def rising(self, _: float, cost: float, bound: float) -> None:
        """Tell of what another search found; bounds never fall."""
        if self.watch is not None:
            seconds = time.perf_counter() - self.began
            self.watch(seconds, min(cost, float(self.cost)), max(bound, self.bound))

    def found(self, **more: bool) -> Found:
        took = time.perf_counter() - self.began
        return Found("feasible", self.values, self.cost, self.bound, took, 0.0, **more)


def search(
    model: Model,
    values: list[int],
    groups: Sequence[Sequence[int]],
    settings: Settings,
    watch: Watch | None = None,
    better: Better | None = None,
    *,
    known: bool = False,
) -> Found:
    """Return the best solution found from a given one, with a bound of all others.

    The effort is fixed, so runs repeat; the clock is a guard. On Ctrl-C, what there is is returned.

    Parameters
    ----------
    values
        A solution, one value a variable; nothing if none is known, and then one is looked for by
        what the relaxation says. That may fail, which says nothing of whether there is any.
    groups
        Choices by week; what spans weeks is in the group of each of them.
    watch
        Told of each better solution.
    better
        Shown better solutions before the search has ended.
    known
        The solution comes from an earlier search: windows of weeks, which have nothing to mend
        there, are left out.
    """
    began = time.perf_counter()
    if settings.seconds <= 0:
        return _Best(model, values, watch, began).found(hit_wall=True) if values else NONE
    if sum(map(bool, groups)) <= SHORT:
        settings = replace(settings, close=0.0, steps=max(settings.steps, STEPS))
    near = Neighbourhoods(model, groups, seed=settings.seed)
    try:
        relaxed = near.relaxed(settings.seconds)
        values = values or _led(near, relaxed, settings.seconds)
    except KeyboardInterrupt:
        found = _Best(model, values, watch, began).found() if values else NONE
        return replace(found, cut_short=True)
    if not values:
        return NONE
    best = _Best(model, values, watch, began, better, relaxed.bound, relaxed=relaxed)
    return _searched(near, best, settings, known=known)


def _led(near: Neighbourhoods, relaxed: Relaxation, seconds: float) -> list[int]:
    """Return a solution led to by the relaxation, or nothing."""
    reach = replace(FIRST_OF_ALL, guard=seconds)
    every = (near.guided(relaxed, share, reach) for share in SHARES)
    return next(filter(None, every), [])


def _searched(near: Neighbourhoods, best: _Best, settings: Settings, *, known: bool) -> Found:
    """Improve a solution, then bound the model."""
    try:
        _improve(near, best, settings, known)
    except KeyboardInterrupt:
        return best.found(cut_short=True)
    left = settings.seconds - (time.perf_counter() - best.began)
    if settings.quick or left <= 0:
        return best.found(hit_wall=left <= 0)
    return _bounded(best, replace(settings.limits(), seconds=left))


def _improve(near: Neighbourhoods, best: _Best, settings: Settings, known: bool) -> None:
    """Search the neighbourhoods in turn while there is time."""
    assert best.relaxed is not None
    best.tell()
    best.show()
    for free, reach in _in_turn(near, best, best.relaxed, known):
        left = settings.seconds - (time.perf_counter() - best.began)
        if left <= 0:
            return
        best.take(near.improved(best.values, free, replace(reach, guard=left)))
        best.show()
    best.show(0.0)


def _in_turn(
    near: Neighbourhoods, best: _Best, relaxed: Relaxation, known: bool
) -> Iterator[tuple[Mask, Reach]]:
    """Yield nearly free choices, windows, what the bound says; each after the last was searched."""
    if not (long := len(near.groups) > LONG):
        yield near.nearly_free(relaxed, FIRST) | near.other(relaxed, best.values), WIDE
    if known or not _far(best, relaxed):
        return
    if not long and _far(best, relaxed, 2 * FAR):
        # a block more or less before a peak moves all that follows up to the next
        yield from _windows(near, max(WINDOW, len(near.groups) // 2), WIDE)
        return
    yield from _windows(near, WINDOW, EACH)
    yield near.other(relaxed, best.values), EACH
    if long:
        yield from _windows(near, 2 * WINDOW, CLOSELY)
        yield near.other(relaxed, best.values), CLOSELY


def _far(best: _Best, relaxed: Relaxation, share: float = FAR) -> bool:
    return best.cost - relaxed.bound > share * best.cost


def _windows(near: Neighbourhoods, weeks: int, reach: Reach) -> Iterator[tuple[Mask, Reach]]:
    """Yield windows of some weeks, each overlapping the one before by half."""
    for start in range(0, len(near.groups), weeks // 2):
        yield near.window(range(start, start + weeks)), reach


def _bounded(best: _Best, limits: SearchLimits) -> Found:
    """Search the tree of the whole model from the best solution.

    Only solutions that would leave a gap wider than asked for are searched.
    """
    under = best.cost * (1.0 - limits.gap)
    small = presolved(_narrowed(best, under))
    hint = small.shrink(dict(enumerate(best.values)))

    def told(seconds: float, cost: float, bound: float) -> None:
        best.rising(seconds, cost, min(bound, under))

    found = branch_and_bound(small.model, limits, hint=hint, watch=told if best.watch else None)
    if found.values:
        best.take(small.expand(found.values))
    bound = max(best.bound, min(found.bound, under))
    ended: Status = "optimal" if found.closed and best.cost - bound <= 1 else "feasible"
    return replace(found, status=ended, values=best.values, objective=best.cost, bound=bound)


def _narrowed(best: _Best, under: float) -> Model:
    """Return the model without what no solution under a cost does."""
    if best.relaxed is None:
        return best.model
    return without_dearer(best.model, best.relaxed, under, best.values)
