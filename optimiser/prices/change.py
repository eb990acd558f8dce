"""Rules dropped, and rules one step looser."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal

from optimiser.rule import Rule

Way = Literal["dropped", "looser"]
MORE = " and so on"


@dataclass(frozen=True)
class Change:
    """One rule changed.

    Parameters
    ----------
    step
        What is looser, in words; empty if the rule is dropped.
    """

    rule: str
    way: Way
    step: str = ""


def without_rule(rules: Sequence[Rule], name: str) -> tuple[Change, list[Rule]]:
    """Return the rules without one of them."""
    return Change(name, "dropped"), [rule for rule in rules if rule.name != name]


def looser(rules: Sequence[Rule], name: str) -> tuple[Change, list[Rule]] | None:
    """Return the rules with one of them one step looser; None if it has no step."""
    rule = next(rule for rule in rules if rule.name == name)
    after = rule.loosened()
    if after is None:
        return None
    change = Change(name, "looser", step_words(rule, after))
    return change, [after if each.name == name else each for each in rules]


def step_words(before: Rule, after: Rule) -> str:
    """Return the parameters that differ: ``longest 6 to 7``."""
    was, now = before.model_dump(mode="json"), after.model_dump(mode="json")
    told = [f"{name} {_short(was[name], now[name])}" for name in was if was[name] != now[name]]
    return ", ".join(told[:1])


def _short(was: Any, now: Any) -> str:
    """Return two values, or of two tables or lists what differs in them first."""
    if isinstance(was, dict):
        name = next(key for key in was if was[key] != now[key])
        inner = _short(was[name], now[name]).removesuffix(MORE)
        more = sum(was[key] != now[key] for key in was) > 1 or isinstance(was[name], dict)
        return f"{name} {inner}{MORE if more else ''}"
    if isinstance(was, list):
        return f"{'/'.join(map(str, was))} to {'/'.join(map(str, now))}"
    return f"{was} to {now}"
