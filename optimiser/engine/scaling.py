"""A model as HiGHS branches on it: costs in thousands, so that numbers are of one size.

Readiness costs are in ten-thousandths of a point while doses are 0 or 1. Counted in thousands, cost
and ``fine`` variables are near the size of the others, and tolerances mean the same for all.
"""

from collections.abc import Mapping, Sequence

import highspy
import numpy as np
import numpy.typing as npt

from optimiser.board.model import Model, Row
from optimiser.engine.relaxation import linear_program

Floats = npt.NDArray[np.float64]

#: What HiGHS counts costs in.
THOUSAND = 1000.0


def program_of(model: Model) -> highspy.HighsLp:
    """Return the whole-number program of a model, ``fine`` and ``implied`` variables continuous.

    Columns after the model's own are slacks of priced rows.
    """
    program = _rescaled(linear_program(model), model.fine)
    whole, broken = highspy.HighsVarType.kInteger, highspy.HighsVarType.kContinuous
    free = model.fine | model.implied
    kinds = [broken if var in free else whole for var in range(len(model.lower))]
    program.integrality_ = kinds + [whole] * (program.num_col_ - len(kinds))
    return program


def _rescaled(program: highspy.HighsLp, fine: set[int]) -> highspy.HighsLp:
    index = np.array(program.a_matrix_.index_, dtype=np.int64)
    many = np.ones(program.num_col_)
    many[sorted(fine)] = THOUSAND
    program.a_matrix_.value_ = np.array(program.a_matrix_.value_) * many[index]
    program.col_cost_ = np.array(program.col_cost_) * many / THOUSAND
    program.col_lower_ = np.array(program.col_lower_) / many
    program.col_upper_ = np.array(program.col_upper_) / many
    program.offset_ = program.offset_ / THOUSAND
    return program


def warm_start(highs: highspy.Highs, model: Model, values: Mapping[int, int]) -> None:
    """Give HiGHS a solution to start from; it need not name every variable."""
    index = np.array(list(values), dtype=np.int32)
    highs.setSolution(len(index), index, scaled_values(values, model))


def scaled_values(values: Mapping[int, int], model: Model) -> Floats:
    """Return the values of some variables as HiGHS counts them."""
    counted = (value / THOUSAND if var in model.fine else value for var, value in values.items())
    return np.fromiter(counted, np.float64, len(values))


def values_of(found: Sequence[float], model: Model) -> list[int]:
    """Return HiGHS's solution in whole numbers, fine variables worked out from the others."""
    values = [round(value) for value in found[: len(model.lower)]]
    for var in model.fine:
        values[var] = model.lower[var]
    for row in model.rows:
        for var in sorted(model.fine.intersection(row.terms)):
            values[var] = max(values[var], _needed(row, var, values))
    return values


def _needed(row: Row, var: int, values: list[int]) -> int:
    """Return the least whole number of ``var`` with which a row holds, the others as they are."""
    rest = sum(factor * values[other] for other, factor in row.terms.items() if other != var)
    factor = row.terms[var]
    if factor > 0 and row.low is not None:
        return -((rest - row.low) // factor)
    if factor < 0 and row.high is not None:
        return -((row.high - rest) // -factor)
    return values[var]
