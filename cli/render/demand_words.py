"""Demands of a clash as sentences."""

from collections.abc import Sequence
from itertools import zip_longest

from cli.render.grouping import Said
from cli.render.tidy import tidy
from optimiser.domain.season import Season
from optimiser.explain.demand import Demand
from optimiser.rule import Rule


def quality_name(season: Season, key: str | None) -> str | None:
    """Return the name of a quality, or None."""
    return None if key is None else season.qualities[season.keys.index(key)].name


def demand_said(
    season: Season,
    rules: Sequence[Rule],
    demands: Sequence[Demand],
    alone: Sequence[int | None] = (),
) -> list[Said]:
    """Return one sentence a demand.

    A demand that stands for many rows (each block that could be, say) is told by its rule's own
    words and where it starts.
    """
    words = {rule.name: rule.words() for rule in rules}
    return [
        Said(
            rule=demand.rule,
            week=demand.key.week,
            quality=quality_name(season, demand.key.quality),
            text=tidy(_sentence(demand, words)) + _alone(demand, by),
            safety=demand.safety,
        )
        for demand, by in zip_longest(demands, alone)
    ]


def _sentence(demand: Demand, words: dict[str, str]) -> str:
    if demand.rule != "blocks" or demand.key.week is None:
        return demand.says[0][0].upper() + demand.says[0][1:]
    return f"{words[demand.rule].rstrip('.')} (starting in week {demand.key.week + 1})"


def _alone(demand: Demand, by: int | None) -> str:
    if by is None or demand.unit in ("choices", "exposures", "low blocks", "doses"):
        return ""
    if demand.rule == "blocks":
        return ""
    return f" (short by {amount(by, demand.unit)})"


def amount(by: int, unit: str) -> str:
    """Return ``1 session`` or ``2 sessions``."""
    if unit == "AU":
        return f"{by} AU"
    short = {"minutes": "min", "near_top_speed_m": "m near top speed", "hard_sets": "hard sets"}
    named = short.get(unit, unit)
    return f"{by} {named.removesuffix('s') if by == 1 and named.endswith('s') else named}"
