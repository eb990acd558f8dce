"""Doses in three parts: a first solution, a better one a few weeks at a time, and the bound.

How soon the bound closes depends on the solution it starts from: what would cost more is left out
at the root, before any branching. Given at the start, a solution near the best saves most of the
search. So branch and bound looks for solutions only until it has a fair one; all further ones are
left to the windows, which find better ones sooner.
"""

import time
from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import inf

from optimiser.board.model import Model
from optimiser.engine.aid import Aid, Halt
from optimiser.engine.branch import STEPS, Limits, branch
from optimiser.engine.search import Effort, Found, Watch
from optimiser.engine.value import value_of
from optimiser.engine.windows import WIDTHS, improve

#: Gap at which a first solution is fair.
FAIR = 0.03
#: Rounds of windows before the bound is searched; the others run beside it.
ROUNDS = 2
#: Once the gap is reached: parts of it that are tried for next.
FURTHER = (0.4, 0.0)
#: Steps for that: fewer are not worth the start of a search, more take too long.
LEAST, MOST = 60, 60


@dataclass(frozen=True)
class Weekly:
    """Improves a solution a few weeks at a time.

    Parameters
    ----------
    groups
        Variables by week.
    effort
        Limits of each improvement.
    """

    groups: Sequence[Sequence[int]]
    effort: Effort

    def better(
        self,
        model: Model,
        values: list[int],
        widths: Sequence[int] = WIDTHS,
        halt: Halt = lambda: False,
    ) -> list[int]:
        """Return a solution at least as good."""
        return improve(model, values, self.groups, self.effort, widths=widths, halt=halt)[0]


def search_by_parts(
    model: Model,
    weekly: Weekly,
    limits: Limits,
    *,
    hint: dict[int, int] | None = None,
    watch: Watch | None = None,
) -> Found:
    """Minimise the model's cost: find, improve, then bound while the improving goes on.

    On Ctrl-C, what there is is returned.

    Parameters
    ----------
    limits
        Of both searches together.
    hint
        A value for some variables.
    """
    began, told = time.perf_counter(), _Rising(watch) if watch else None
    fair = replace(limits, gap=FAIR, least=0)
    found = branch(model, fair, hint=hint, watch=told)
    if found.status == "feasible" and not found.cut_short:
        try:
            start = weekly.better(model, found.values, WIDTHS[:ROUNDS])
        except KeyboardInterrupt:
            return replace(found, cut_short=True)
        found = _bounded(model, weekly, limits, _with(model, found, start), told)
        if found.near(limits.gap):
            found = _further(model, weekly, limits, found, told)
    return replace(found, seconds=time.perf_counter() - began)


def _further(
    model: Model, weekly: Weekly, limits: Limits, found: Found, watch: Watch | None
) -> Found:
    """Search for less than the gap that is reached, if enough steps are left for it."""
    done = round(STEPS * found.deterministic)
    if limits.least - done < LEAST:
        return found
    rest = replace(limits, most=done + MOST)
    for part in FURTHER:
        if found.closed or found.cut_short:
            break
        found = _bounded(model, weekly, rest, found, watch, goal=part * limits.gap)
    return found


class _Rising:
    """Tells of solutions of several searches as if they were one.

    Parameters
    ----------
    watch
        Who is told.
    """

    def __init__(self, watch: Watch) -> None:
        self._watch, self._best, self._bound = watch, inf, -inf

    def __call__(self, seconds: float, best: float, bound: float) -> None:
        self._bound = max(self._bound, bound)
        if best < self._best:
            self._best = best
            self._watch(seconds, best, self._bound)


def _cheaper(model: Model, one: list[int], other: list[int]) -> list[int]:
    return min(one, other, key=lambda values: value_of(model, values))


def _with(model: Model, found: Found, values: list[int]) -> Found:
    """Return what was found with a better solution."""
    return replace(found, values=values, objective=value_of(model, values))


def _bounded(
    model: Model,
    weekly: Weekly,
    limits: Limits,
    known: Found,
    watch: Watch | None,
    *,
    goal: float | None = None,
) -> Found:
    """Search on for the bound with what is left of the limits; the solution is improved beside.

    Parameters
    ----------
    goal
        Gap that ends the search, if not that of ``limits``. Solutions that are better by less are
        not looked for.
    """
    done = round(STEPS * known.deterministic)
    if done >= limits.most:
        return known
    seconds = max(1.0, limits.seconds - known.seconds)
    goal = limits.gap if goal is None else goal
    left = replace(limits, gap=goal, least=0, most=limits.most - done, seconds=seconds, seek=False)

    def improve_further(values: list[int], halt: Halt) -> list[int]:
        return weekly.better(model, values, WIDTHS[ROUNDS:], halt)

    with Aid(improve_further, known.values, beside=limits.workers > 1) as aid:
        hint = dict(enumerate(known.values))
        found = _joined(model, known, branch(model, left, hint=hint, watch=watch, aid=aid))
        if found.closed or found.cut_short or found.near(limits.gap):
            # how far an improvement came that was halted depends on the clock: it does not count
            return found
        try:
            better = aid.result()
        except KeyboardInterrupt:
            return replace(found, cut_short=True)
    return _with(model, found, _cheaper(model, found.values, better))


def _joined(model: Model, before: Found, after: Found) -> Found:
    """Return what two searches know together."""
    values = _cheaper(model, before.values, after.values or before.values)
    return replace(
        _with(model, after, values),
        status=after.status if after.status == "optimal" else "feasible",
        bound=max(before.bound, after.bound),
        seconds=before.seconds + after.seconds,
        deterministic=before.deterministic + after.deterministic,
    )
