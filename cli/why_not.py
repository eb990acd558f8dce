"""A clash in a few lines, for commands that have more to tell."""

from collections.abc import Sequence

from cli.render.clash import clash_part
from optimiser.domain.season import Season
from optimiser.explain.clash import find_clash
from optimiser.replan.decided import Decided
from optimiser.rule import Rule


def why_not(season: Season, rules: Sequence[Rule], decided: Decided | None = None) -> str:
    """Return the smallest clash of a season that cannot be planned; nothing if none is found."""
    finding = find_clash(season, rules, further=0, decided=decided)
    return clash_part(season, finding.clashes[0]) if finding.clashes else ""
