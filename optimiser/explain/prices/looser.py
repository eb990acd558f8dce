"""Rules dropped, and rules one step looser."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from optimiser.rule import Rule

Way = Literal["dropped", "looser"]


@dataclass(frozen=True)
class Change:
    """One rule changed.

    Parameters
    ----------
    step
        What is looser, as a coach says it; empty if the rule is dropped.
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
    change = Change(name, "looser", rule.step_words(after))
    return change, [after if each.name == name else each for each in rules]
