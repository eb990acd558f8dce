"""From our linear model to a CP-SAT model."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum, auto

from ortools.sat.python import cp_model

from optimiser.board.model import Model, Row, Tag


class Treat(Enum):
    """How the rows of one tag are taken."""

    HARD = auto()
    PRICED = auto()
    GUARDED = auto()
    DROPPED = auto()


def by_price(tag: Tag) -> Treat:
    """Take a tag as its rule says: priced if it has a price, else hard."""
    return Treat.HARD if tag.price is None else Treat.PRICED


@dataclass
class Emitted:
    """A CP-SAT model and the way back.

    Parameters
    ----------
    variables
        One CP-SAT variable a model variable, in order.
    slacks
        For every priced tag its slack variables, in units of excess.
    guards
        For every guarded tag the literal that switches its rows on.
    """

    cp: cp_model.CpModel
    variables: list[cp_model.IntVar]
    slacks: dict[Tag, list[cp_model.IntVar]]
    guards: dict[Tag, cp_model.IntVar]


def emit(model: Model, treat: Callable[[Tag], Treat] = by_price) -> Emitted:
    """Build the CP-SAT model of ``model`` without its cost."""
    cp = cp_model.CpModel()
    variables = [
        cp.new_int_var(low, high, name)
        for low, high, name in zip(model.lower, model.upper, model.names, strict=True)
    ]
    out = Emitted(cp, variables, {}, {})
    for row in model.rows:
        _emit_row(out, model, row, Treat.HARD if row.tag is None else treat(row.tag))
    return out


def _emit_row(out: Emitted, model: Model, row: Row, how: Treat) -> None:
    if how is Treat.DROPPED:
        return
    terms = [out.variables[var] for var in row.terms]
    factors = list(row.terms.values())
    if how is Treat.PRICED:
        slack = _slack(out, model, row)
        terms.append(slack)
        factors.append(-row.unit if row.high is not None else row.unit)
    low = cp_model.INT_MIN if row.low is None else row.low
    high = cp_model.INT_MAX if row.high is None else row.high
    expression = cp_model.LinearExpr.weighted_sum(terms, factors)
    posted = out.cp.add_linear_constraint(expression, low, high)
    conditions = [] if row.when is None else [out.variables[row.when]]
    if how is Treat.GUARDED and row.tag is not None:
        conditions.append(guard(out, row.tag))
    if conditions:
        posted.only_enforce_if(*conditions)


def guard(out: Emitted, tag: Tag) -> cp_model.IntVar:
    """Return the literal of a guarded tag; made when first asked for."""
    if tag not in out.guards:
        out.guards[tag] = out.cp.new_bool_var(f"rule{len(out.guards)}")
    return out.guards[tag]


def _slack(out: Emitted, model: Model, row: Row) -> cp_model.IntVar:
    assert row.tag is not None
    most = max(0, -(-_overshoot(model, row) // row.unit))
    made = out.slacks.setdefault(row.tag, [])
    slack = out.cp.new_int_var(0, most, f"{row.tag.rule}_excess")
    made.append(slack)
    return slack


def _overshoot(model: Model, row: Row) -> int:
    """Return the most by which a row can be missed."""
    if row.high is not None:
        return _extreme(model, row, up=True) - row.high
    assert row.low is not None
    return row.low - _extreme(model, row, up=False)


def _extreme(model: Model, row: Row, *, up: bool) -> int:
    return sum(
        factor * (model.upper[var] if (factor > 0) == up else model.lower[var])
        for var, factor in row.terms.items()
    )
