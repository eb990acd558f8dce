"""The clash, told by any command that meets one."""

from collections.abc import Sequence

from cli.files.scenario_file import Loaded
from cli.render.clash import clash_part, clash_text
from optimiser.change.decided import Decided
from optimiser.domain.season import Season
from optimiser.explain.clash import find_clash
from optimiser.rule import Rule


def clash_now(loaded: Loaded, rules: Sequence[Rule]) -> str:
    """Return the clash of a season that has no plan, and where to look for repairs."""
    finding = find_clash(loaded.season, rules, seed=loaded.scenario.seed)
    ask = f"seasonwright explain {loaded.path}"
    if finding.verdict != "clash":
        return f"Which rules clash was not found in a few seconds; look longer: {ask}"
    return f"{clash_text(loaded.season, finding)}\n\nFor the cheapest repairs: {ask}"


def clash_in_short(season: Season, rules: Sequence[Rule], decided: Decided | None = None) -> str:
    """Return the smallest clash of a season that cannot be planned; nothing if none is found."""
    finding = find_clash(season, rules, further=0, decided=decided)
    return clash_part(season, finding.clashes[0]) if finding.clashes else ""
