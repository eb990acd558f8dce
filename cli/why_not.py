"""A clash in a few lines, for commands that have more to tell."""

from collections.abc import Sequence

from optimiser.domain.season import Season
from optimiser.explain.clash import find_clash
from optimiser.rule import Rule


def why_not(season: Season, rules: Sequence[Rule]) -> str:
    """Return the smallest clash of a season that cannot be planned; nothing if none is found."""
    finding = find_clash(season, rules, further=0)
    if not finding.clashes:
        return ""
    clash = finding.clashes[0]
    sure = "all are needed" if clash.minimal else "perhaps not all are needed"
    head = f"These cannot be kept together ({sure}):"
    lines = [f"- {demand.rule}: {says}" for demand in clash.demands for says in demand.says]
    return "\n".join([head, *lines])
