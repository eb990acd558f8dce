"""The qualities of a scenario: the default ladders with its changes laid over them."""

import tomllib
from collections.abc import Mapping
from difflib import get_close_matches
from functools import cache
from importlib.resources import files
from typing import Any

from optimiser.domain.quality import Quality
from optimiser.domain.scenario import Scenario
from optimiser.domain.setup_error import SetupError

Table = dict[str, Any]


@cache
def _default_text() -> str:
    return files("optimiser").joinpath("defaults", "qualities.toml").read_text(encoding="utf-8")


def default_tables() -> dict[str, Table]:
    """Return the default ladders as plain tables by key, in order; yours to change."""
    return tomllib.loads(_default_text())


def default_qualities() -> tuple[Quality, ...]:
    """Return the default ladders."""
    return tuple(Quality(key=key, **table) for key, table in default_tables().items())


def laid_over(under: Mapping[str, Any], over: Mapping[str, Any]) -> Table:
    """Return ``under`` with the keys of ``over`` put in, tables key by key, lists whole."""
    merged = dict(under)
    for key, value in over.items():
        both = isinstance(value, Mapping) and isinstance(merged.get(key), Mapping)
        merged[key] = laid_over(merged[key], value) if both else value
    return merged


def quality_tables(scenario: Scenario) -> dict[str, Table]:
    """Return the plain table of every quality in use, by key and in order.

    Raises
    ------
    SetupError
        If none is left, ``use`` is not true or false, one that is not there is left out, or
        ``order`` does not name each once.
    """
    known = default_tables()
    for key, table in scenario.qualities.items():
        if key not in known and table.get("use") is False:
            raise _unknown(key, list(known))
    merged = laid_over(known, scenario.qualities)
    used = {key: table for key, table in merged.items() if _in_use(key, table)}
    if not used:
        raise SetupError("qualities", "at least one must be in use", "none", "drop a use = false")
    return {key: used[key] for key in _ordered(scenario.order, list(used))}


def build_qualities(scenario: Scenario) -> tuple[Quality, ...]:
    """Return the checked qualities of ``scenario``, in order."""
    return tuple(Quality(key=key, **table) for key, table in quality_tables(scenario).items())


def _in_use(key: str, table: Table) -> bool:
    use = table.pop("use", True)
    if not isinstance(use, bool):
        raise SetupError(f"qualities.{key}.use", "must be true or false", repr(use), "write false")
    if "key" in table:
        raise SetupError(
            f"qualities.{key}.key", "is the table's own name", repr(table["key"]), "take it out"
        )
    return use


def _unknown(key: str, known: list[str]) -> SetupError:
    close = get_close_matches(key, known, 1)
    do = f"did you mean {close[0]}?" if close else "take the table out"
    return SetupError(
        f"qualities.{key}", f"left out must be one of {', '.join(known)}", repr(key), do
    )


def _ordered(order: tuple[str, ...], keys: list[str]) -> list[str]:
    if order and sorted(order) != sorted(keys):
        raise SetupError(
            "order",
            f"must name each quality in use once ({', '.join(keys)})",
            ", ".join(order),
            "correct the list or leave it out",
        )
    return list(order or keys)
