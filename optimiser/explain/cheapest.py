"""The cheapest way for some demands to give way, all others left aside."""

import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from ortools.sat.python import cp_model

from optimiser.board.model import Model
from optimiser.engine.interrupts import solve_or_raise
from optimiser.explain.demand import Demand, Key
from optimiser.explain.oracle import Clock, wide_solver
from optimiser.explain.posting import put_elastic, put_row, put_sum, put_var, put_variables, rows_of
from optimiser.explain.repair_costs import Kind, kind_cost, kind_of, place_cost, unit_cost
from optimiser.explain.turns import Turns

#: By how many units demands give way.
Sizes = dict[Key, int]


@dataclass(frozen=True)
class Cheapest:
    """A way to give.

    Parameters
    ----------
    cost
        In the units of ``costs``.
    proven
        True if no other is cheaper, of those that were allowed.
    values
        Of the model's variables.
    """

    sizes: Sizes
    cost: int
    proven: bool
    values: tuple[int, ...] = ()


class GivingWay:
    """A model in which some demands may give way at a cost; assumptions never enter it.

    Parameters
    ----------
    model
        Rows of these demands, and definitions; rows of other demands are left out.
    turns
        Ways of searching; to be shared with further questions that are much like this one.
    """

    def __init__(
        self,
        model: Model,
        demands: Mapping[Key, Demand],
        clock: Clock,
        turns: Turns | None = None,
    ) -> None:
        self._clock, self._demands = clock, demands
        self._turns = Turns() if turns is None else turns
        self._cp, self._size = cp_model.CpModel(), len(model.lower)
        put_variables(self._cp, model)
        for row in model.rows:
            if row.tag is None:
                put_row(self._cp, row)
        self._amount: dict[Key, int] = {}
        self._used: dict[Key, int] = {}
        self._kinds: dict[Kind, int] = {}
        self._cost: dict[int, int] = {}
        for key, rows in rows_of(model, demands).items():
            self._let_give(key, put_elastic(self._cp, model, rows))

    def _let_give(self, key: Key, slacks: list[int]) -> None:
        cp, demand = self._cp, self._demands[key]
        most = sum(cp.proto.variables[slack].domain[1] for slack in slacks)
        amount, used = put_var(cp, 0, most), put_var(cp, 0, 1)
        put_sum(cp, {**dict.fromkeys(slacks, 1), amount: -1}, 0, 0)
        put_sum(cp, {amount: 1, used: -most}, None, 0)
        kind = kind_of(key)
        if kind not in self._kinds:
            self._kinds[kind] = put_var(cp, 0, 1)
            self._cost[self._kinds[kind]] = kind_cost(demand)
        put_sum(cp, {used: 1, self._kinds[kind]: -1}, None, 0)
        self._amount[key], self._used[key] = amount, used
        self._cost[amount], self._cost[used] = unit_cost(demand), place_cost(demand)

    def forbid_kinds(self, sizes: Sizes) -> None:
        """Leave at least one kind of limit alone that ``sizes`` touches."""
        kinds = sorted({kind_of(key) for key in sizes})
        put_sum(self._cp, {self._kinds[kind]: 1 for kind in kinds}, None, len(kinds) - 1)

    def forbid_more(self, sizes: Sizes) -> None:
        """Give less than ``sizes`` somewhere: what asks for as much everywhere is no new way."""
        reached = {}
        for key, by in sizes.items():
            flag = put_var(self._cp, 0, 1)
            most = self._cp.proto.variables[self._amount[key]].domain[1]
            put_sum(self._cp, {self._amount[key]: 1, flag: -(most - by + 1)}, None, by - 1)
            reached[flag] = 1
        put_sum(self._cp, reached, None, len(sizes) - 1)

    def freeze(self, keys: Sequence[Key]) -> None:
        """Let these not give way at all."""
        for key in keys:
            put_sum(self._cp, {self._amount[key]: 1}, 0, 0)

    def cheapest(self, *, floor: int = 0) -> Cheapest | None:
        """Return the cheapest way to give; None if there is none, or none was found in time.

        If that takes long, the best way found is returned as not proven.

        Parameters
        ----------
        floor
            Cost below which there is no way, known from an easier question.
        """
        objective = self._cp.proto.objective
        objective.vars.extend(list(self._cost))
        objective.coeffs.extend(list(self._cost.values()))
        put_sum(self._cp, self._cost, floor, None)
        best: Cheapest | None = None
        for seed, (make, effort) in enumerate(self._turns.each()):
            way, settled = self._search(make(self._clock.left, seed, effort))
            if settled:
                self._turns.won(make)
                return way
            if way is not None and (best is None or way.cost < best.cost):
                best = way
            tired = self._turns.lost(effort)
            if not self._clock.left or (best and tired and make is wide_solver):
                return best
        return None

    def _search(self, solver: cp_model.CpSolver) -> tuple[Cheapest | None, bool]:
        """Return the way that was found, and whether there is nothing more to find."""
        began = time.perf_counter()
        status = solve_or_raise(solver, self._cp)
        took = time.perf_counter() - began
        self._clock.record("cost", len(self._amount), solver.status_name(status).lower(), took)
        if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return None, status == cp_model.INFEASIBLE
        values = tuple(solver.response_proto.solution)
        sizes = {key: int(values[var]) for key, var in self._amount.items() if values[var]}
        proven = status == cp_model.OPTIMAL
        cost = round(solver.objective_value)
        return Cheapest(sizes, cost, proven, values[: self._size]), proven
