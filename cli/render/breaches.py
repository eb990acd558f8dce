"""Breaches in words."""

from collections.abc import Sequence

from optimiser.domain.breach import Breach
from optimiser.domain.document import BreachPart
from optimiser.domain.sentence import Sentence
from optimiser.domain.unit import in_units


def breaches_text(breaches: Sequence[BreachPart]) -> str:
    """Return every breach by rule."""
    if not breaches:
        return "No rule is broken."
    lines = [f"{len(breaches)} breach{'' if len(breaches) == 1 else 'es'}:"]
    for rule in dict.fromkeys(breach.rule for breach in breaches):
        told = (breach_line(breach) for breach in breaches if breach.rule == rule)
        lines += [f"  {rule}", *(f"    {line}" for line in told)]
    return "\n".join(lines)


def breach_line(breach: BreachPart) -> str:
    """Return one breach: what is wrong and by how much."""
    words = breach.words or f"{breach.rule} is broken"
    if breach.unit == "times":
        return words
    return f"{words} (by {in_units(breach.excess, breach.unit)})"


def breach_sentence(breach: Breach) -> Sentence:
    """Return the same of a breach that was just found, fit to be told with others."""
    if breach.unit == "times":
        return breach.says
    return breach.says.then(" (by {over})", over=in_units(breach.excess, breach.unit))
