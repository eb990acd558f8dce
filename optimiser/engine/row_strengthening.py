"""Tighter rows: where two sums of whole steps meet in a row, the hull of the points that keep it.

Sums such as a week's minutes only take multiples of some minutes. A row between two of them is
then replaced by the few rows that bound its whole-number points and nothing else, which a linear
relaxation cannot find by itself.

Andrew 1979, Information Processing Letters 9(5):216-9, for hulls by sorted points.
"""

from dataclasses import dataclass, replace
from functools import reduce
from itertools import pairwise
from math import gcd

from optimiser.board.model import Model, Row, Terms

#: Most points along a hull; a row between longer sums stays as it is.
LONGEST = 5000

Point = tuple[int, int]


@dataclass(frozen=True)
class _Sum:
    """A sum of variables, or its negative: ``least + step * k``, ``k`` up to ``most``."""

    variables: list[int]
    sign: int
    step: int
    least: int
    most: int

    def at(self, place: int) -> int:
        """Return the value after so many steps."""
        return self.least + self.step * place

    def terms(self, factor: int) -> Terms:
        """Return it as terms of its variables, times ``factor``."""
        return dict.fromkeys(self.variables, self.sign * factor)


def strengthened(model: Model) -> Model:
    """Return the model with tighter rows; the same whole-number points keep it.

    Rows with a price or a condition stay as they are, since what they ask for may be passed over.
    """
    steps = _steps(model)
    model = _on_grid(model, steps)
    rows: list[Row] = []
    for row in model.rows:
        rows += _tightened(model, row, steps) or [row]
    return replace(model, rows=rows)


def _on_grid(model: Model, steps: dict[int, tuple[int, int]]) -> Model:
    """Return the model with bounds of sums moved to the nearest value that they take."""
    lower, upper = list(model.lower), list(model.upper)
    for var, (step, rest) in steps.items():
        low = lower[var] + (rest - lower[var]) % step
        high = upper[var] - (upper[var] - rest) % step
        if low <= high:
            lower[var], upper[var] = low, high
    return replace(model, lower=lower, upper=upper)


def _steps(model: Model) -> dict[int, tuple[int, int]]:
    """Return step and remainder of each variable that a row defines as a sum of others."""
    steps = {}
    for row in model.rows:
        if row.low is None or row.low != row.high or row.when is not None:
            continue
        sums = [var for var, factor in row.terms.items() if factor == -1]
        step = reduce(gcd, (factor for factor in row.terms.values() if factor != -1), 0)
        if len(sums) == 1 and step > 1:
            steps[sums[0]] = (step, -row.low % step)
    return steps


def _tightened(model: Model, row: Row, steps: dict[int, tuple[int, int]]) -> list[Row]:
    """Return the hull of a row between two sums, or nothing if it is of another kind.

    As ``a * rise - b * fall <= high``: where both sums add up, the one counted by more is taken for
    its negative.
    """
    if not row.firm or (row.low is None) == (row.high is None) or model.fine & row.terms.keys():
        return []
    sign = 1 if row.high is not None else -1
    terms = {var: sign * factor for var, factor in row.terms.items()}
    factors = sorted(set(terms.values()), key=lambda factor: (factor < 0, abs(factor)))
    if len(factors) != 2:
        return []
    up, down = factors
    rise = _sum(model, terms, up, steps, 1 if up > 0 else -1)
    fall = _sum(model, terms, down, steps, 1 if down < 0 else -1)
    a, b = abs(up), abs(down)
    if min(a * rise.step, b * fall.step) == 1 or max(rise.most, fall.most) > LONGEST:
        return []
    points = _points(rise, fall, (a, b, row.high if row.high is not None else -(row.low or 0)))
    return _rows(points, rise, fall, row) if points else []


def _sum(
    model: Model, terms: Terms, factor: int, steps: dict[int, tuple[int, int]], sign: int
) -> _Sum:
    """Return the sum of the variables with one factor, whose bounds are values that they take."""
    variables = [var for var, each in terms.items() if each == factor]
    step = reduce(gcd, (steps.get(var, (1, 0))[0] for var in variables), 0)
    low = sum(model.lower[var] for var in variables)
    high = sum(model.upper[var] for var in variables)
    return _Sum(variables, sign, step, low if sign > 0 else -high, (high - low) // step)


def _points(rise: _Sum, fall: _Sum, row: tuple[int, int, int]) -> list[Point]:
    """Return for each value of the falling sum the greatest of the rising one, both in steps."""
    a, b, high = row
    points = []
    for y in range(fall.most + 1):
        x = min(rise.most, (high + b * fall.at(y) - a * rise.least) // (a * rise.step))
        if x >= 0:
            points.append((y, x))
    return points


def _rows(points: list[Point], rise: _Sum, fall: _Sum, row: Row) -> list[Row]:
    """Return the rows along the upper edge of the points, and one before the first of them."""
    rows = []
    for (y, x), (further, higher) in pairwise(_edge(points)):
        dy, dx = (further - y) * fall.step, (higher - x) * rise.step
        if dx > 0:
            # dy * (rise - its value at x) <= dx * (fall - its value at y)
            terms = {**rise.terms(dy), **fall.terms(-dx)}
            rows.append(Row(terms, None, dy * rise.at(x) - dx * fall.at(y), None, row.tag))
    first, most = points[0][0], max(x for _, x in points)
    if first:
        rows.append(Row(fall.terms(1), fall.at(first), None, None, row.tag))
    if most < rise.most:
        rows.append(Row(rise.terms(1), None, rise.at(most), None, row.tag))
    return rows


def _edge(points: list[Point]) -> list[Point]:
    """Return the corners of the upper hull of points that are sorted by their first number."""
    edge: list[Point] = []
    for point in points:
        while len(edge) > 1 and not _turns_down(edge[-2], edge[-1], point):
            edge.pop()
        edge.append(point)
    return edge


def _turns_down(first: Point, middle: Point, last: Point) -> bool:
    rise = (middle[1] - first[1]) * (last[0] - first[0])
    return rise > (last[1] - first[1]) * (middle[0] - first[0])
