"""A first legal plan, and the solution of the priced model that stands for a plan."""

from collections.abc import Sequence
from dataclasses import replace

from optimiser.board.board import Board
from optimiser.board.model import Model
from optimiser.domain.plan import Plan
from optimiser.domain.rates import Rates
from optimiser.engine.branch_and_bound import SearchLimits, branch_and_bound
from optimiser.engine.cp_sat_search import Found, minimise
from optimiser.engine.presolve import Presolved, presolved
from optimiser.joint_model.cost_rows import band_miss
from optimiser.joint_model.effort import Settings

#: Deterministic limit of the first try, with little presolve: most seasons need no more.
LIGHT = 2.0
#: Nodes in which the variables that a plan does not name are worked out.
FILL = 100
#: What opening a block costs in points of emphasis off.
BLOCK = 80


def price_bands(board: Board, rates: Rates, model: Model | None = None) -> None:
    """Make bands off the emphasis wanted a model's cost, and blocks opened: a start, no claim.

    Parameters
    ----------
    model
        The board's as it was once; left out, the board's own.
    """
    season, model = board.season, model or board.model
    model.cost.clear()
    model.offset, model.charge = 0, 1
    for (index, arc, rung, _, _), var in board.steps.items():
        cost = sum(band_miss(season, rates, index, week, rung) for week in arc.weeks)
        if cost:
            model.cost[var] = cost
    for var in board.arcs.values():
        model.cost[var] = BLOCK


def first_plan(
    board: Board, settings: Settings, like: Plan | None = None, model: Model | None = None
) -> Found:
    """Return a legal plan with good blocks and bands, as values of the board's variables.

    Doses keep the rules, no more. Without any the status tells whether rules clash.

    Parameters
    ----------
    like
        A plan that the search starts from; it need not be legal.
    model
        The board's as it was before the season was priced; left out, the board's own.
    """
    price_bands(board, settings.rates, model)
    small = presolved(model or board.model)
    hint = small.shrink(board.hint(like)) if like else None
    found = first_values(small.model, settings, hint)
    return replace(found, values=small.expand(found.values) if found.values else [])


def plan_near(board: Board, model: Model, settings: Settings, like: Plan) -> list[int]:
    """Return a plan if it is legal, else its bands with other doses, as values; or nothing.

    Parameters
    ----------
    model
        The board's as it was before the season was priced.
    """
    price_bands(board, settings.rates, model)
    small = presolved(model)
    held = board.hint(like)
    near = standing_for(small, held) or _same_bands(board, small, held, settings)
    return small.expand(near) if near else []


def _same_bands(
    board: Board, small: Presolved, like: dict[int, int], settings: Settings
) -> list[int]:
    """Return a solution with the blocks and bands of a plan and doses near its own, if any."""
    bands = [*board.arcs.values(), *board.steps.values()]
    inner = _held(small, {var: like[var] for var in bands if var in like})
    if inner is None:
        return []
    light = replace(settings.effort(LIGHT), presolve="light")
    found = minimise(inner.model, light, hint=inner.shrink(small.shrink(like)))
    return inner.expand(found.values) if found.values else []


def first_values(model: Model, settings: Settings, hint: dict[int, int] | None = None) -> Found:
    """Return a good solution of a model soon, or that there is none."""
    light = replace(settings.effort(LIGHT), presolve="light")
    found = minimise(model, light, hint=hint)
    if found.values or found.closed or found.cut_short:
        return found
    return minimise(model, settings.effort(), hint=hint)


def standing_for(small: Presolved, held: dict[int, int]) -> list[int]:
    """Return the cheapest solution in which some variables are held; nothing if there is none.

    Parameters
    ----------
    held
        Values of variables of the uncompacted model.
    """
    inner = _held(small, held)
    if inner is None:
        return []
    found = branch_and_bound(inner.model, SearchLimits(gap=0.0, most=FILL, workers=1))
    return inner.expand(found.values) if found.values else []


def _held(small: Presolved, held: dict[int, int]) -> Presolved | None:
    """Return what is left of a model once some variables are held; None if bounds forbid it."""
    lower, upper = list(small.model.lower), list(small.model.upper)
    for var, value in small.shrink(held).items():
        if not lower[var] <= value <= upper[var]:
            return None
        lower[var] = upper[var] = value
    if not _agrees(small, held):
        return None
    return presolved(_with(small.model, lower, upper))


def fewest(model: Model, values: list[int], counted: Sequence[int]) -> list[int]:
    """Return a solution as good that differs only in ``counted`` variables, whose sum is least.

    Where costs leave open how many sessions hold a week's work, the fewest do. All else is held,
    a shortfall of sessions too, so that the cost stays what it is.
    """
    free = set(counted)
    lower, upper = (
        [bounds[var] if var in free else value for var, value in enumerate(values)]
        for bounds in (model.lower, model.upper)
    )
    # rows of what is held are kept as they are
    rows = [row for row in model.rows if not free.isdisjoint(row.terms)]
    held = replace(_with(model, lower, upper), rows=rows, cost=dict.fromkeys(counted, 1), offset=0)
    inner = presolved(held)
    found = branch_and_bound(inner.model, SearchLimits(gap=0.0, most=FILL, workers=1))
    return inner.expand(found.values) if found.values else values


def _with(model: Model, lower: list[int], upper: list[int]) -> Model:
    return replace(model, lower=lower, upper=upper)


def _agrees(small: Presolved, held: dict[int, int]) -> bool:
    """Tell whether the variables that are fixed have the values that are held."""
    kept = set(small.kept)
    return all(value == small.lower[var] for var, value in held.items() if var not in kept)
