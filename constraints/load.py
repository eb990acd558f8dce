"""From a scenario's ``[rules.*]`` tables to rules."""

from collections.abc import Mapping
from typing import Any

from constraints import CATALOGUE
from optimiser.domain.season import Season
from optimiser.rule import Rule


class UnknownRuleError(ValueError):
    """A table names a rule that does not exist."""


def load_rules(tables: Mapping[str, Mapping[str, Any]], season: Season | None = None) -> list[Rule]:
    """Return the rules of a scenario, in the catalogue's order.

    Parameters
    ----------
    tables
        By rule name: changed parameters; ``use = false`` drops a rule.
    season
        If given, parameters are checked against it.

    Raises
    ------
    UnknownRuleError
        If a table names no rule.
    pydantic.ValidationError
        If a parameter is out of range.
    ValueError
        If a parameter does not fit the season.
    """
    unknown = sorted(set(tables) - set(CATALOGUE))
    if unknown:
        raise UnknownRuleError(f"there is no rule {unknown[0]!r}; rules: {', '.join(CATALOGUE)}")
    young = season is not None and season.under_18
    rules = [
        kind.model_validate({**(kind.for_under_18 if young else {}), **_given(tables, name)})
        for name, kind in CATALOGUE.items()
        if (tables[name].get("use", True) if name in tables else kind.in_use)
    ]
    if season is not None:
        for rule in rules:
            rule.check(season)
    return rules


def _given(tables: Mapping[str, Mapping[str, Any]], name: str) -> dict[str, Any]:
    """Return the parameters that a table changes."""
    return {key: value for key, value in tables.get(name, {}).items() if key != "use"}
