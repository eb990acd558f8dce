"""Leave out of a model what cannot matter to the demands that are kept.

Exact both ways: the smaller model has a solution if and only if the larger one has. Three steps. A
variable that every row wants in the same direction is put at that end. A definition goes when
variables that appear nowhere else can put it right whatever the rest of it does. Then whole
islands of definitions go if everything in them can stand at its lower bound.
"""

from collections import defaultdict
from collections.abc import Collection, Iterable

from optimiser.board.model import Model, Row
from optimiser.explain.demand import Key, is_argued, row_key


def reduced(model: Model, kept: Collection[Key]) -> Model:
    """Return a smaller model that answers the same about ``kept`` and its parts."""
    held = set(kept)
    rows = [
        row for row in model.rows if row.tag is None or (is_argued(row) and row_key(row) in held)
    ]
    return _packed(model, _without_islands(model, _Pruned(model, rows).rows()))


class _Pruned:
    """Rows being taken away one by one, and where each variable still appears."""

    def __init__(self, model: Model, rows: list[Row]) -> None:
        self._model = model
        self._left = dict(enumerate(rows))
        self._fixed: dict[int, int] = {}
        self._uses: dict[int, set[int]] = defaultdict(set)
        for number, row in self._left.items():
            for var in row.terms:
                self._uses[var].add(number)
            if row.when is not None:
                self._uses[row.when].add(number)
        self._prune()

    def rows(self) -> list[Row]:
        """Return what is left; a variable that was put at one end may stand anywhere now."""
        return list(self._left.values())

    def _prune(self) -> None:
        waiting = set(self._uses)
        while waiting:
            var = waiting.pop()
            uses = self._uses[var]
            if not uses or var in self._fixed:
                continue
            gone = {number for number in uses if self._goes(var, number)}
            if len(uses) > 1 and len(gone) < len(uses):
                # one row that needs the variable elsewhere keeps it free for all of them
                continue
            for number in gone:
                row = self._left.pop(number)
                for other in (*row.terms, *([] if row.when is None else [row.when])):
                    self._uses[other].discard(number)
                    waiting.add(other)

    def _goes(self, var: int, number: int) -> bool:
        row = self._left[number]
        if row.tag is not None or row.when is not None or var not in row.terms:
            return False
        if len(self._uses[var]) == 1:
            return self._rights_itself(row)
        return False

    def _rights_itself(self, row: Row) -> bool:
        """Tell whether the row's private variables can satisfy it whatever the others are."""
        own = [(var, factor) for var, factor in row.terms.items() if len(self._uses[var]) == 1]
        rest = [(var, factor) for var, factor in row.terms.items() if len(self._uses[var]) != 1]
        least, most = _span(self._model, own)
        rest_least, rest_most = _span(self._model, rest)
        if row.low is not None and row.high is not None and any(abs(f) != 1 for _, f in own):
            return False
        fits_high = row.high is None or least + rest_most <= row.high
        fits_low = row.low is None or most + rest_least >= row.low
        return fits_high and fits_low
