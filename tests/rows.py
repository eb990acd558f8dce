"""Whether rows hold, worked out one row at a time."""

from optimiser.board.outline import Arc


def holds(row, values):
    """Tell whether values, by index, keep a row; without its condition it asks for nothing."""
    if row.when is not None and not values[row.when]:
        return True
    amount = sum(factor * values[var] for var, factor in row.terms.items())
    return (row.low is None or amount >= row.low) and (row.high is None or amount <= row.high)


def pin_blocks(board, plan):
    """Fix blocks and rungs to those of a plan; False if it has one that is not open."""
    blocks = {Arc(block.start, len(block)) for block in plan.blocks()}
    if not blocks <= set(board.arcs):
        return False
    for arc, var in board.arcs.items():
        board.model.fix(var, int(arc in blocks))
    for (quality, arc, rung, _, _), var in board.steps.items():
        if arc not in blocks or plan.rungs[quality][arc.start] != rung:
            board.model.fix(var, 0)
    return True
