"""A smaller model with the same answers: variables that are as good as fixed go into the rows."""

from dataclasses import dataclass, replace

from optimiser.board.model import Model, Row
from optimiser.engine.bound_tightening import tightened


@dataclass(frozen=True)
class Presolved:
    """A model over the free variables of another.

    Parameters
    ----------
    lower
        The value of each of the original's variables that is fixed.
    kept
        For each variable of ``model``, its index in the original.
    """

    model: Model
    lower: list[int]
    kept: list[int]

    def expand(self, values: list[int]) -> list[int]:
        """Return a value for every variable of the original."""
        full = list(self.lower)
        for var, value in zip(self.kept, values, strict=True):
            full[var] = value
        return full

    def shrink(self, values: dict[int, int]) -> dict[int, int]:
        """Return the values of those variables that are still free."""
        return {new: values[old] for new, old in enumerate(self.kept) if old in values}


def presolved(model: Model) -> Presolved:
    """Return ``model`` without the variables that are fixed, by its rows at once too."""
    lower, upper = tightened(model)
    model = replace(model, lower=lower, upper=upper)
    kept = [var for var, low in enumerate(model.lower) if low < model.upper[var]]
    index = {old: new for new, old in enumerate(kept)}
    small = Model(
        lower=[model.lower[var] for var in kept],
        upper=[model.upper[var] for var in kept],
        names=[model.names[var] for var in kept],
        offset=model.offset,
        charge=model.charge,
        fine={index[var] for var in model.fine if var in index},
        implied={index[var] for var in model.implied if var in index},
    )
    for var, factor in model.cost.items():
        if var in index:
            small.cost[index[var]] = factor
        else:
            small.offset += factor * model.lower[var]
    for row in model.rows:
        folded = _fold(model, row, index)
        if folded is not None:
            small.rows.append(folded)
    return Presolved(small, lower, kept)


def _fold(model: Model, row: Row, index: dict[int, int]) -> Row | None:
    """Return a row over free variables, or None if it says nothing any more."""
    when = row.when
    if when is not None and when not in index:
        if not model.lower[when]:
            return None
        when = None
    if _always_true(model, row):
        return None
    constant, terms = 0, {}
    for var, factor in row.terms.items():
        if var in index:
            terms[index[var]] = factor
        else:
            constant += factor * model.lower[var]
    low = None if row.low is None else row.low - constant
    high = None if row.high is None else row.high - constant
    place = None if when is None else index[when]
    return Row(terms, low, high, place, row.tag, row.unit)


def _always_true(model: Model, row: Row) -> bool:
    """Tell whether no values within the bounds break a row."""
    lower, upper, terms = model.lower, model.upper, row.terms.items()
    if row.low is not None and row.low > sum(f * (lower if f > 0 else upper)[v] for v, f in terms):
        return False
    return row.high is None or row.high >= sum(
        factor * (upper if factor > 0 else lower)[var] for var, factor in terms
    )
