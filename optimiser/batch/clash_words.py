"""A clash in one line of a table."""

from collections.abc import Iterable, Sequence
from itertools import groupby

from optimiser.change.decided import Decided
from optimiser.domain.season import Season
from optimiser.domain.week_number import number_of
from optimiser.rule import Rule

#: Weeks of one rule that are written out.
MOST_STRETCHES = 4


def clash_line(season: Season, rules: Sequence[Rule], decided: Decided | None = None) -> str:
    """Return in a line which rules clash in which weeks; ``explain`` says the rest."""
    from optimiser.explain.clash import find_clash

    found = find_clash(season, rules, further=0, decided=decided).clashes
    if not found:
        return "the rules clash; explain looks for the reason with more time"
    weeks: dict[str, set[int | None]] = {}
    for key in found[0].keys:
        weeks.setdefault(key.rule, set()).add(key.week)
    told = [f"{name}{_weeks(held)}" for name, held in weeks.items()]
    if len(told) == 1:
        return f"{told[0]} cannot be kept"
    return f"{', '.join(told[:-1])} and {told[-1]} clash"


def _weeks(held: Iterable[int | None]) -> str:
    """Return weeks as people count them: ``(weeks 3-5, 9)``."""
    numbers = sorted(number_of(week) for week in held if week is not None)
    if not numbers:
        return ""
    runs = groupby(enumerate(numbers), key=lambda pair: pair[1] - pair[0])
    stretches = []
    for _, run in runs:
        here = [number for _, number in run]
        stretches.append(f"{here[0]}-{here[-1]}" if here[1:] else f"{here[0]}")
    more = ", ..." if len(stretches) > MOST_STRETCHES else ""
    word = "week" if len(numbers) == 1 else "weeks"
    return f" ({word} {', '.join(stretches[:MOST_STRETCHES])}{more})"
