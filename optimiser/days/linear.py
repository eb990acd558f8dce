"""Sums of a model's variables, in the types that its library takes."""

from collections.abc import Iterable

from ortools.sat.python import cp_model

#: A variable, a sum of variables, or a number.
Linear = cp_model.LinearExpr | int


def total(parts: Iterable[Linear]) -> cp_model.LinearExpr:
    """Return the sum of variables, sums and numbers; 0 where there are none."""
    return cp_model.LinearExpr.sum(list(parts))
