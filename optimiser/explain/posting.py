"""From our rows to the solver's, straight into its own structures.

Expressions and names would take three times as long, and these models live for a second.
"""

from collections.abc import Collection, Iterable, Mapping

from ortools.sat.python import cp_model

from optimiser.board.model import Model, Row
from optimiser.explain.demand import Key, row_key

LOW, HIGH = -(2**63), 2**63 - 1


def _ends(low: int | None, high: int | None) -> tuple[int, int]:
    return LOW if low is None else low, HIGH if high is None else high


def put_variables(cp: cp_model.CpModel, model: Model) -> None:
    """Add the model's variables, without names: names are a third of the time."""
    add = cp.proto.variables.add
    for low, high in zip(model.lower, model.upper, strict=True):
        add().domain.extend((low, high))


def put_row(cp: cp_model.CpModel, row: Row, extra: Iterable[int] = ()) -> None:
    """Add one row, enforced by its own condition and by ``extra`` literals."""
    posted = cp.proto.constraints.add()
    linear = posted.linear
    linear.vars.extend(list(row.terms))
    linear.coeffs.extend(list(row.terms.values()))
    linear.domain.extend(_ends(row.low, row.high))
    posted.enforcement_literal.extend([*([] if row.when is None else [row.when]), *extra])


def rows_of(model: Model, keys: Collection[Key]) -> dict[Key, list[Row]]:
    """Return the rows of each demand in ``keys``."""
    found: dict[Key, list[Row]] = {key: [] for key in keys}
    for row in model.rows:
        key = row_key(row)
        if key in found:
            found[key].append(row)
    return found


def most_excess(model: Model, row: Row) -> int:
    """Return by how many units of excess a row can be missed at most."""
    if row.high is not None:
        over = sum(f * (model.upper if f > 0 else model.lower)[v] for v, f in row.terms.items())
        return max(0, -(-(over - row.high) // row.unit))
    assert row.low is not None
    under = sum(f * (model.lower if f > 0 else model.upper)[v] for v, f in row.terms.items())
    return max(0, -(-(row.low - under) // row.unit))


def put_elastic(
    cp: cp_model.CpModel, model: Model, rows: Iterable[Row], literals: Iterable[int] = ()
) -> list[int]:
    """Add rows, each with a variable for its excess in whole units; return those variables.

    Excess over all rows of a demand adds up to what its rule's audit would count.
    """
    slacks = []
    for row in rows:
        slack = len(cp.proto.variables)
        cp.proto.variables.add().domain.extend((0, most_excess(model, row)))
        slacks.append(slack)
        posted = cp.proto.constraints.add()
        posted.linear.vars.extend([*row.terms, slack])
        widen = -row.unit if row.high is not None else row.unit
        posted.linear.coeffs.extend([*row.terms.values(), widen])
        posted.linear.domain.extend(_ends(row.low, row.high))
        posted.enforcement_literal.extend([*([] if row.when is None else [row.when]), *literals])
    return slacks


def put_sum(
    cp: cp_model.CpModel,
    terms: Mapping[int, int],
    low: int | None,
    high: int | None,
    literals: Iterable[int] = (),
) -> None:
    """Add ``low <= sum <= high``, if all ``literals`` are 1."""
    posted = cp.proto.constraints.add()
    posted.linear.vars.extend(list(terms))
    posted.linear.coeffs.extend(list(terms.values()))
    posted.linear.domain.extend(_ends(low, high))
    posted.enforcement_literal.extend(list(literals))


def put_var(cp: cp_model.CpModel, low: int, high: int) -> int:
    """Add a whole-number variable and return its index."""
    cp.proto.variables.add().domain.extend((low, high))
    return len(cp.proto.variables) - 1
