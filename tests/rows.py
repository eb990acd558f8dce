"""Whether rows hold, worked out one row at a time."""


def holds(row, values):
    """Tell whether values, by index, keep a row; without its condition it asks for nothing."""
    if row.when is not None and not values[row.when]:
        return True
    amount = sum(factor * values[var] for var, factor in row.terms.items())
    return (row.low is None or amount >= row.low) and (row.high is None or amount <= row.high)
