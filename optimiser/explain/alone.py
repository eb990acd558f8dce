"""By how much one demand of a clash would have to give way if it alone did."""

import time
from collections.abc import Collection

from ortools.sat.python import cp_model

from optimiser.board.model import Model
from optimiser.engine.interrupts import solve_or_raise
from optimiser.explain.demand import Key, is_argued, row_key
from optimiser.explain.oracle import Clock, tight_solver
from optimiser.explain.posting import put_elastic, put_row, put_sum, put_var, put_variables


def alone(model: Model, members: Collection[Key], one: Key, clock: Clock) -> int | None:
    """Return the fewest units ``one`` must give for the other members to be kept.

    Returns
    -------
    int or None
        None if it was not found in the time left, or if no giving of this one helps.
    """
    cp = cp_model.CpModel()
    put_variables(cp, model)
    given = []
    for row in model.rows:
        key = row_key(row)
        if key is None:
            put_row(cp, row)
        elif is_argued(row) and key == one:
            given += put_elastic(cp, model, [row])
        elif is_argued(row) and key in members:
            put_row(cp, row)
    most = sum(cp.proto.variables[slack].domain[1] for slack in given)
    amount = put_var(cp, 0, most)
    put_sum(cp, {**dict.fromkeys(given, 1), amount: -1}, 0, 0)
    cp.proto.objective.vars.append(amount)
    cp.proto.objective.coeffs.append(1)
    solver = tight_solver(clock.left)
    began = time.perf_counter()
    status = solve_or_raise(solver, cp)
    took = time.perf_counter() - began
    clock.record("alone", len(members), solver.status_name(status).lower(), took)
    return round(solver.objective_value) if status == cp_model.OPTIMAL else None
