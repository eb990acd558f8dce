"""The least cost by SCIP, through OR-Tools: a solver that has no part in the search."""

import math
from dataclasses import dataclass

import highspy
from ortools.linear_solver import pywraplp

from optimiser.board.model import Model
from optimiser.engine.interrupts import interruptible
from optimiser.engine.scaling import THOUSAND, program_of, scaled_values

#: Share of the cost within which the search ends.
CLOSE = 1e-5
MILLI = 1000
#: Ctrl-C is ours to see.
OWN = "misc/catchctrlc = FALSE\n"


@dataclass(frozen=True)
class Least:
    """The best cost found, None if none, and a lower bound of all."""

    cost: float | None
    bound: float


def least_cost(model: Model, values: list[int], seconds: float) -> Least:
    """Return the least cost of a model.

    Parameters
    ----------
    values
        A solution to start from.
    seconds
        Wall-clock guard.

    Raises
    ------
    KeyboardInterrupt
        On Ctrl-C.
    """
    solver = pywraplp.Solver.CreateSolver("SCIP")
    program = program_of(model)
    variables = _variables(solver, program)
    _rows(solver, program, variables)
    solver.SetHint(variables[: len(values)], scaled_values(dict(enumerate(values)), model).tolist())
    solver.SetTimeLimit(int(seconds * MILLI))
    solver.SetSolverSpecificParametersAsString(OWN)
    settings = pywraplp.MPSolverParameters()
    settings.SetDoubleParam(settings.RELATIVE_MIP_GAP, CLOSE)
    ended, pressed = interruptible(lambda: solver.Solve(settings), solver.InterruptSolve)
    if pressed:
        raise KeyboardInterrupt
    found = ended in (pywraplp.Solver.OPTIMAL, pywraplp.Solver.FEASIBLE)
    goal = solver.Objective()
    bound = THOUSAND * goal.BestBound() if math.isfinite(goal.BestBound()) else 0.0
    return Least(THOUSAND * goal.Value() if found else None, bound)


def _variables(solver: pywraplp.Solver, program: highspy.HighsLp) -> list[pywraplp.Variable]:
    whole = highspy.HighsVarType.kInteger
    kinds = (kind == whole for kind in program.integrality_)
    spans = zip(program.col_lower_, program.col_upper_, kinds, strict=True)
    made = [solver.Var(low, high, each, "") for low, high, each in spans]
    goal = solver.Objective()
    goal.SetOffset(program.offset_)
    for variable, cost in zip(made, program.col_cost_, strict=True):
        goal.SetCoefficient(variable, cost)
    goal.SetMinimization()
    return made


def _rows(
    solver: pywraplp.Solver, program: highspy.HighsLp, variables: list[pywraplp.Variable]
) -> None:
    matrix = program.a_matrix_
    starts, index, factors = list(matrix.start_), list(matrix.index_), list(matrix.value_)
    for row, (low, high) in enumerate(zip(program.row_lower_, program.row_upper_, strict=True)):
        made = solver.Constraint(low, high)
        for at in range(starts[row], starts[row + 1]):
            made.SetCoefficient(variables[index[at]], factors[at])
