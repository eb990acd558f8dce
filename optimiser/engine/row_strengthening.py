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
    """A sum of variables that are ``step`` apart: ``least + step * k``, ``k`` up to ``most``."""

    variables: list[int]
    least: int
    most: int


def strengthened(model: Model) -> Model:
    """Return the model with tighter rows; the same whole-number points keep it.

    Rows with a price or a condition stay as they are, since what they ask for may be passed over.
    """
    steps = _steps(model)
    rows: list[Row] = []
    for row in model.rows:
        rows += _tightened(model, row, steps) or [row]
    return replace(model, rows=rows)


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
    """Return the hull of ``a * x - b * y <= high``, or nothing if the row is of another kind."""
    factors = set(row.terms.values())
    if not row.firm or len(factors) != 2 or not min(factors) < 0 < max(factors):
        return []
    if (row.low is None) == (row.high is None) or model.fine & row.terms.keys():
        return []
    sign = 1 if row.high is not None else -1
    step = reduce(gcd, (steps.get(var, (1, 0))[0] for var in row.terms), 0)
    terms = {var: sign * factor for var, factor in row.terms.items()}
    rise = _sum(model, terms, max(terms.values()), step, steps)
    fall = _sum(model, terms, min(terms.values()), step, steps)
    high = row.high if row.high is not None else -(row.low or 0)
    a, b = max(terms.values()), -min(terms.values())
    if min(a, b) == 1 or max(rise.most, fall.most) > LONGEST:
        return []
    points = _points(rise, fall, step, (a, b, high))
    return _rows(points, rise, fall, step, row) if points else []


def _sum(
    model: Model, terms: Terms, factor: int, step: int, steps: dict[int, tuple[int, int]]
) -> _Sum:
    """Return the sum of the variables with one factor."""
    variables = [var for var, each in terms.items() if each == factor]
    rests = {var: steps.get(var, (1, 0))[1] % step for var in variables}
    low = sum(model.lower[var] + (rests[var] - model.lower[var]) % step for var in variables)
    high = sum(model.upper[var] - (model.upper[var] - rests[var]) % step for var in variables)
    return _Sum(variables, low, (high - low) // step)


def _points(rise: _Sum, fall: _Sum, step: int, row: tuple[int, int, int]) -> list[Point]:
    """Return for each value of the falling sum the greatest of the rising one, both in steps."""
    a, b, high = row
    points = []
    for y in range(fall.most + 1):
        room = high + b * (fall.least + step * y) - a * rise.least
        x = min(rise.most, room // (a * step))
        if x >= 0:
            points.append((y, x))
    return points


def _rows(points: list[Point], rise: _Sum, fall: _Sum, step: int, row: Row) -> list[Row]:
    """Return the rows along the upper edge of the points, and one before the first of them."""
    rows = []
    for (y, x), (further, higher) in pairwise(_edge(points)):
        dy, dx = further - y, higher - x
        if dx <= 0:
            continue
        # dy * (rise - x) <= dx * (fall - y), with both sums counted in steps
        terms = dict.fromkeys(rise.variables, dy) | dict.fromkeys(fall.variables, -dx)
        high = dy * (rise.least + step * x) - dx * (fall.least + step * y)
        rows.append(Row(terms, None, high, None, row.tag))
    first, most = points[0][0], max(x for _, x in points)
    if first:
        least = fall.least + step * first
        rows.append(Row(dict.fromkeys(fall.variables, 1), least, None, None, row.tag))
    if most < rise.most:
        top = rise.least + step * most
        rows.append(Row(dict.fromkeys(rise.variables, 1), None, top, None, row.tag))
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
