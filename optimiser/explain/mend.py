"""A repair as waivers, and the rules with them."""

from collections.abc import Iterable, Sequence

from optimiser.domain.week_number import number_of
from optimiser.explain.demand import Demand
from optimiser.rule import Rule, Waiver


def waiver_of(demand: Demand, by: int) -> Waiver:
    """Return the waiver that lets ``demand`` give way by so many of its units."""
    key = demand.key
    week = None if key.week is None else number_of(key.week)
    return Waiver(week=week, quality=key.quality, part=key.part or None, by=by)


def mended(rules: Sequence[Rule], gives: Iterable[tuple[Demand, int]]) -> list[Rule]:
    """Return the rules with a waiver for every demand that gives way."""
    waivers: dict[str, list[Waiver]] = {}
    for demand, by in gives:
        waivers.setdefault(demand.rule, []).append(waiver_of(demand, by))
    return [
        rule.model_copy(update={"waive": (*rule.waive, *waivers.get(rule.name, ()))})
        for rule in rules
    ]
