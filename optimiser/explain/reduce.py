"""Leave out of a model what cannot matter to the demands that are kept.

Exact both ways, for the demands and every part of them: the smaller model has a solution if and
only if the larger one has. Three steps. A variable that every row wants in the same direction is
put at that end. A definition goes when it then always holds, or when variables that appear nowhere
else can put it right. Last, whole islands of definitions go if everything in them can stand at its
lower bound.
"""

from collections import Counter
from collections.abc import Collection, Iterable, Mapping

from optimiser.board.model import Model, Row
from optimiser.explain.demand import Key, is_argued, row_key

Terms = Iterable[tuple[int, int]]


def reduced(
    model: Model, kept: Collection[Key], helpers: Mapping[int, frozenset[int]] | None = None
) -> Model:
    """Return a smaller model that answers the same about ``kept`` and its parts.

    Parameters
    ----------
    helpers
        Rows (by position) that can always be put right by some variables, and those variables;
        such a row stays only if one of them is used by another row that does.
    """
    pruned = _Pruned(model, _rows_for(model, set(kept), helpers or {}))
    return _packed(pruned, _without_islands(pruned))


def _rows_for(model: Model, kept: set[Key], helpers: Mapping[int, frozenset[int]]) -> list[Row]:
    stays = {
        at
        for at, row in enumerate(model.rows)
        if (at not in helpers if row.tag is None else is_argued(row) and row_key(row) in kept)
    }
    used = {var for at in stays for var in variables_of(model.rows[at])}
    needed_by: dict[int, list[int]] = {}
    for at, own in helpers.items():
        for var in own:
            needed_by.setdefault(var, []).append(at)
    waiting = list(used)
    while waiting:
        for at in needed_by.pop(waiting.pop(), ()):
            if at not in stays:
                stays.add(at)
                waiting += variables_of(model.rows[at])
    return [model.rows[at] for at in sorted(stays)]


def variables_of(row: Row) -> list[int]:
    """Return the variables of a row, its condition among them."""
    return [*row.terms, *([] if row.when is None else [row.when])]


class _Pruned:
    """Rows taken away one by one, and what each variable still means to the others."""

    def __init__(self, model: Model, rows: list[Row]) -> None:
        self.lower, self.upper = list(model.lower), list(model.upper)
        self.names = model.names
        self.left = dict(enumerate(rows))
        self._where: dict[int, list[int]] = {}
        self._uses: Counter[int] = Counter()
        self._up: Counter[int] = Counter()
        self._down: Counter[int] = Counter()
        for number, row in self.left.items():
            self._count(row, 1)
            for var in variables_of(row):
                self._where.setdefault(var, []).append(number)
        self._prune()

    def _count(self, row: Row, sign: int) -> None:
        """Count in how many rows a variable appears, and which way it may not go there."""
        for var in variables_of(row):
            self._uses[var] += sign
        for var, factor in row.terms.items():
            if (row.high is not None and factor > 0) or (row.low is not None and factor < 0):
                self._up[var] += sign
            if (row.high is not None and factor < 0) or (row.low is not None and factor > 0):
                self._down[var] += sign
        if row.when is not None:
            self._up[row.when] += sign

    def _prune(self) -> None:
        waiting = set(self._where)
        while waiting:
            var = waiting.pop()
            moved = self._settle(var)
            if not moved and self._uses[var] != 1:
                continue
            for number in self._where[var]:
                row = self.left.get(number)
                if row is not None and row.tag is None and self._idle(row):
                    del self.left[number]
                    self._count(row, -1)
                    waiting.update(variables_of(row))

    def _settle(self, var: int) -> bool:
        """Put a variable at the end that no row minds; True if it was not there already."""
        if self.lower[var] == self.upper[var]:
            return False
        if not self._down[var]:
            self.upper[var] = self.lower[var]
            return True
        if not self._up[var]:
            self.lower[var] = self.upper[var]
            return True
        return False

    def _idle(self, row: Row) -> bool:
        """Tell whether the row holds anyway, or its private variables can put it right."""
        least, most = self.span(row.terms.items())
        if (row.high is None or most <= row.high) and (row.low is None or least >= row.low):
            return True
        own = [(var, factor) for var, factor in row.terms.items() if self._uses[var] == 1]
        if row.when is not None or any(abs(factor) != 1 for _, factor in own):
            return False
        own_least, own_most = self.span(own)
        high = row.high is None or own_least + most - own_most <= row.high
        low = row.low is None or own_most + least - own_least >= row.low
        return high and low

    def span(self, terms: Terms) -> tuple[int, int]:
        """Return the least and the most a sum can be."""
        least = most = 0
        for var, factor in terms:
            low, high = self.lower[var], self.upper[var]
            least += factor * (low if factor > 0 else high)
            most += factor * (high if factor > 0 else low)
        return least, most


def _without_islands(pruned: _Pruned) -> list[Row]:
    """Drop connected parts without a demand that hold with everything at its lower bound."""
    rows = list(pruned.left.values())
    island = _islands(rows)
    firm = {
        island[var]
        for row in rows
        if row.tag is not None or not _holds_low(pruned, row)
        for var in variables_of(row)[:1]
    }
    return [row for row in rows if not variables_of(row) or island[variables_of(row)[0]] in firm]


def _islands(rows: list[Row]) -> dict[int, int]:
    """Return the name of each variable's connected part."""
    parent: dict[int, int] = {}

    def find(var: int) -> int:
        root = parent.setdefault(var, var)
        while parent[root] != root:
            root = parent[root]
        while parent[var] != root:
            parent[var], var = root, parent[var]
        return root

    for row in rows:
        first, *others = variables_of(row) or [-1]
        root = find(first)
        for var in others:
            parent[find(var)] = root
            root = find(root)
    return {var: find(var) for var in list(parent)}


def _holds_low(pruned: _Pruned, row: Row) -> bool:
    amount = sum(factor * pruned.lower[var] for var, factor in row.terms.items())
    return (row.low is None or amount >= row.low) and (row.high is None or amount <= row.high)


def _packed(pruned: _Pruned, rows: list[Row]) -> Model:
    """Return a model of these rows alone, its variables numbered anew."""
    used = sorted({var for row in rows for var in variables_of(row)})
    new = {var: number for number, var in enumerate(used)}
    out = Model(
        lower=[pruned.lower[var] for var in used],
        upper=[pruned.upper[var] for var in used],
        names=[pruned.names[var] for var in used],
    )
    for row in rows:
        terms = {new[var]: factor for var, factor in row.terms.items()}
        when = None if row.when is None else new[row.when]
        out.rows.append(Row(terms, row.low, row.high, when, row.tag, row.unit))
    return out
