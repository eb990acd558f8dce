"""What a solution costs."""

from collections.abc import Sequence

from optimiser.board.model import Model


def value_of(model: Model, values: Sequence[int]) -> int:
    """Return the cost of a solution, with the price of what gives way."""
    total = model.offset + sum(factor * values[var] for var, factor in model.cost.items())
    for row in model.rows:
        if (
            row.tag is None
            or row.tag.price is None
            or (row.when is not None and not values[row.when])
        ):
            continue
        have = sum(factor * values[var] for var, factor in row.terms.items())
        over = have - row.high if row.high is not None else (row.low or 0) - have
        total += model.charge * row.tag.price * max(0, -(-over // row.unit))
    return total
