"""Some way to give, when there is no time to find the cheapest one.

Demands that clash are let go one after the other until a plan is possible; what that plan then
breaks is what has to give. After that each is asked back, the dearest first.
"""

from collections.abc import Collection, Mapping

from optimiser.domain.plan import Plan
from optimiser.explain.cheapest import Cheapest, Sizes
from optimiser.explain.clash import Argument
from optimiser.explain.demand import Demand, Key, breach_key
from optimiser.explain.repair_costs import kind_cost, kind_of, place_cost, unit_cost


def some_way(argument: Argument, known: Collection[Key]) -> tuple[Cheapest, Plan] | None:
    """Return a way to give and the plan that takes it; None if there was no time even for that."""
    let_go = set(known)
    while True:
        answer = argument.oracle.core([k for k in argument.oracle.keys if k not in let_go])
        if answer.verdict == "possible":
            break
        if answer.verdict == "unknown" or not answer.core:
            return None
        let_go |= set(answer.core)
    plan = argument.board.read(answer.values)
    sizes = broken_by(argument, plan)
    for key in sorted(sizes, key=lambda key: -_one_cost(argument.demands[key], sizes[key])):
        back = _without(argument, sizes, key)
        if back is not None:
            plan = back
            sizes = broken_by(argument, plan)
    return Cheapest(sizes, cost_of_giving_way(argument.demands, sizes), False), plan


def _without(argument: Argument, sizes: Sizes, key: Key) -> Plan | None:
    """Return a plan that gives no more than before anywhere and nothing at ``key``, if any."""
    if key not in sizes:
        return None
    rest = {other: by for other, by in sizes.items() if other != key}
    kept = [other for other in argument.oracle.keys if other not in rest]
    answer = argument.oracle.core(kept, loosened=rest)
    return argument.board.read(answer.values) if answer.verdict == "possible" else None


def broken_by(argument: Argument, plan: Plan) -> Sizes:
    """Return by how much a plan misses each demand, as the rules' own audits say."""
    sizes: Sizes = {}
    for breach in argument.breaches(plan, argument.rules):
        key = breach_key(breach)
        sizes[key] = sizes.get(key, 0) + breach.excess
    return sizes


def cost_of_giving_way(demands: Mapping[Key, Demand], sizes: Sizes) -> int:
    """Return what giving way by ``sizes`` costs."""
    kinds = {kind_of(key): kind_cost(demands[key]) for key in sizes}
    return sum(_one_cost(demands[key], by) for key, by in sizes.items()) + sum(kinds.values())


def _one_cost(demand: Demand, by: int) -> int:
    return by * unit_cost(demand) + place_cost(demand)
