"""Narrower bounds that follow from the rows at once."""

from collections import defaultdict, deque
from collections.abc import ItemsView

from optimiser.board.model import Model, Row

#: Visits a row may have on average; what takes longer is left to the search.
VISITS = 20


def tightened(model: Model) -> tuple[list[int], list[int]]:
    """Return lower and upper bounds of all variables, after passing bounds along the hard rows.

    Rows with a price may give way and switched rows may be off, so neither narrows anything. The
    bounds of the model come back if no values keep its rows.
    """
    lower, upper = list(model.lower), list(model.upper)
    rows = [row for row in model.rows if row.firm]
    if _passed_on(rows, lower, upper):
        return lower, upper
    return list(model.lower), list(model.upper)


def _passed_on(rows: list[Row], lower: list[int], upper: list[int]) -> bool:
    """Pass bounds along until nothing changes, in place; return False if none are left."""
    of_var: dict[int, list[int]] = defaultdict(list)
    for place, row in enumerate(rows):
        for var in row.terms:
            of_var[var].append(place)
    queue, waiting = deque(range(len(rows))), set(range(len(rows)))
    for _ in range(VISITS * len(rows)):
        if not queue:
            break
        place = queue.popleft()
        waiting.discard(place)
        for var in _narrow(rows[place], lower, upper):
            if lower[var] > upper[var]:
                return False
            fresh = [other for other in of_var[var] if other not in waiting]
            queue.extend(fresh)
            waiting.update(fresh)
    return True


def _narrow(row: Row, lower: list[int], upper: list[int]) -> list[int]:
    """Narrow the variables of one row in place; return those that changed."""
    changed = []
    if row.high is not None:
        changed += _narrow_side(row.terms.items(), row.high, lower, upper)
    if row.low is not None:
        mirrored = [(var, -factor) for var, factor in row.terms.items()]
        changed += _narrow_side(mirrored, -row.low, lower, upper)
    return changed


def _narrow_side(
    terms: list[tuple[int, int]] | ItemsView[int, int],
    high: int,
    lower: list[int],
    upper: list[int],
) -> list[int]:
    """Narrow by ``sum <= high``: each variable has what the least of the others leaves it."""
    spare = high - sum(f * (lower[var] if f > 0 else upper[var]) for var, f in terms)
    changed = []
    for var, factor in terms:
        room = abs(factor) * (upper[var] - lower[var])
        if room <= spare:
            continue
        if factor > 0:
            upper[var] = lower[var] + spare // factor
        else:
            lower[var] = upper[var] - spare // -factor
        changed.append(var)
    return changed
