"""Which of two rule sets only gives way more than the other."""

from collections.abc import Iterator, Sequence
from itertools import zip_longest
from typing import Any

from optimiser.rule import Rule

OF_EVERY_RULE = {"price", "waive"}


def only_loosens(rules: Sequence[Rule], tighter: Sequence[Rule]) -> bool:
    """Tell whether every plan that keeps ``tighter`` keeps ``rules``, and the two differ.

    Rules may be dropped, given a price or a waiver, or have a limit moved the looser way.
    """
    before = {rule.name: rule for rule in tighter}
    if list(rules) == list(tighter):
        return False
    return all(rule.name in before and _looser(rule, before[rule.name]) for rule in rules)


def _looser(rule: Rule, before: Rule) -> bool:
    if rule == before:
        return True
    priced = rule.price is not None and (before.price is None or rule.price <= before.price)
    if not (priced or rule.price == before.price):
        return False
    if not all(waiver in rule.waive for waiver in before.waive):
        return False
    return all(_way(rule, *moved) for moved in _moves(rule, before))


def _moves(rule: Rule, before: Rule) -> Iterator[tuple[str, Any, Any]]:
    now, then = rule.model_dump(mode="json"), before.model_dump(mode="json")
    for field in sorted(set(now) - OF_EVERY_RULE):
        for new, old in zip_longest(_leaves(now[field]), _leaves(then[field])):
            if new != old:
                yield field, new, old


def _leaves(value: Any, path: tuple[str, ...] = ()) -> list[tuple[tuple[str, ...], Any]]:
    if isinstance(value, dict):
        parts = [(str(key), part) for key, part in sorted(value.items())]
    elif isinstance(value, list):
        parts = [(str(place), part) for place, part in enumerate(value)]
    else:
        return [(path, value)]
    return [leaf for key, part in parts for leaf in _leaves(part, (*path, key))]


def _way(rule: Rule, field: str, new: Any, old: Any) -> bool:
    """Tell whether one number moved the looser way; a leaf is its path and its value.

    It decides which plan is tried as a start; the plan itself is audited before it is used.
    """
    if new is None or old is None or new[0] != old[0]:
        return False
    if not all(isinstance(leaf[1], (int, float)) for leaf in (new, old)):
        return False
    return field in (rule.looser_up if new[1] > old[1] else rule.looser_down)
