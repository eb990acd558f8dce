"""Small changes of a plan, for a search that knows only audits and the season cost."""

from collections.abc import Sequence
from random import Random

from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose
from optimiser.domain.rates import Rates
from optimiser.domain.season import Season
from optimiser.joint_model.cost import season_cost
from optimiser.rule import Rule


def cheapest_near(
    season: Season, rules: Sequence[Rule], plan: Plan, rng: Random, tries: int
) -> tuple[int, int]:
    """Return the least season cost that a local search finds from a plan, and its legal tries.

    A legal change is kept if it does not cost more, so that the search may wander.
    """
    must = [rule for rule in rules if rule.price is None]
    best = season_cost(season, rules, plan, Rates()).total
    legal = 0
    for _ in range(tries):
        other = moved(plan, season, rng)
        if other is None or any(rule.audit(other, season) for rule in must):
            continue
        legal += 1
        cost = season_cost(season, rules, other, Rates()).total
        if cost <= best:
            plan, best = other, cost
    return best, legal


def moved(plan: Plan, season: Season, rng: Random) -> Plan | None:
    """Return a plan with one or two cells, a whole block, or a block's border changed."""
    kind = rng.choice(("cells", "cells", "rung", "block", "border"))
    if kind == "border":
        return _border(plan, rng)
    doses, rungs = [list(row) for row in plan.doses], [list(row) for row in plan.rungs]
    block = rng.choice(plan.blocks())
    index = rng.randrange(len(doses))
    if kind == "rung":
        rung = rng.randrange(len(season.qualities[index].bands))
        for week in block:
            rungs[index][week] = rung
    elif kind == "block":
        shift = rng.choice((-1, 1))
        for week in block:
            doses[index][week] = Dose(min(3, max(0, doses[index][week] + shift)))
    else:
        for _ in range(rng.randint(1, 2)):
            week = rng.choice([day for each in plan.blocks() for day in each])
            doses[rng.randrange(len(doses))][week] = rng.choice(list(Dose))
    update = {"doses": tuple(map(tuple, doses)), "rungs": tuple(map(tuple, rungs))}
    return _with_sessions(plan.model_copy(update=update), season, rng)


def _border(plan: Plan, rng: Random) -> Plan | None:
    """Move the border between two blocks by a week."""
    borders = [start for start in plan.starts if start and plan.rungs[0][start - 1] is not None]
    if not borders:
        return None
    stop = rng.choice(borders)
    here, source = rng.choice(((stop, stop - 1), (stop - 1, stop)))
    start = here + 1 if here == stop else here
    starts = (set(plan.starts) - {stop}) | {start}
    if start >= plan.weeks or start in plan.starts or plan.rungs[0][start] is None:
        return None
    rungs = [list(row) for row in plan.rungs]
    for row in rungs:
        row[here] = row[source]
    return plan.model_copy(
        update={"starts": tuple(sorted(starts)), "rungs": tuple(map(tuple, rungs))}
    )


def _with_sessions(plan: Plan, season: Season, rng: Random) -> Plan:
    """Give each week at least the sessions that its work asks for, now and then one more."""
    field, gym = list(plan.field), list(plan.gym)
    for place, row in (("field", field), ("gym", gym)):
        for week in range(plan.weeks):
            work = [
                doses[week]
                for quality, doses in zip(season.qualities, plan.doses, strict=True)
                if quality.place == place
            ]
            most = sum(map(int, work))
            row[week] = max(min(row[week], most), int(most > 0))
            if most > row[week] and rng.random() < 0.1:
                row[week] += 1
    return plan.model_copy(update={"field": tuple(field), "gym": tuple(gym)})
