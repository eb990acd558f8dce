"""Improve a solution window by window: all but a few weeks are held, those are solved again."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from optimiser.board.model import Model
from optimiser.engine.compact import compact
from optimiser.engine.search import Effort, minimise
from optimiser.engine.value import value_of

Better = Callable[[int], None]


def improve(
    model: Model,
    values: list[int],
    groups: Sequence[Sequence[int]],
    effort: Effort,
    *,
    width: int = 8,
    rounds: int = 2,
    better: Better | None = None,
    halt: Callable[[], bool] = lambda: False,
) -> tuple[list[int], float]:
    """Return a solution at least as good, and the deterministic time used.

    Parameters
    ----------
    groups
        Variables by week; all those outside the window are held at their values.
    width
        Weeks in a window; windows overlap by half.
    rounds
        Passes over the season; a pass that finds nothing ends the search.
    halt
        Asked before each window; True ends the search.
    """
    best, cost, used = values, value_of(model, values), 0.0
    for turn in range(rounds):
        before = cost
        first = -(width // 4) * (turn % 2)
        for start in range(first, len(groups), width // 2):
            if used >= effort.deterministic or halt():
                return best, used
            held = [
                v for week, g in enumerate(groups) if not start <= week < start + width for v in g
            ]
            found, spent = _window(model, best, held, effort)
            used += spent
            if found is not None and (new := value_of(model, found)) < cost:
                best, cost = found, new
                if better is not None:
                    better(cost)
        if cost == before:
            break
    return best, used


def _window(
    model: Model, values: list[int], held: list[int], effort: Effort
) -> tuple[list[int] | None, float]:
    lower, upper = list(model.lower), list(model.upper)
    for var in held:
        lower[var] = upper[var] = values[var]
    small = compact(replace(model, lower=lower, upper=upper), tighten=False)
    hint = small.shrink(dict(enumerate(values)))
    found = minimise(
        small.model, replace(effort, deterministic=0.4, seconds=5.0, presolve="light"), hint=hint
    )
    return (small.expand(found.values) if found.values else None), found.deterministic
