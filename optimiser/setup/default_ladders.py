"""The default ladders as plain tables."""

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any

Table = dict[str, Any]


@cache
def _text() -> str:
    return files("optimiser").joinpath("setup", "qualities.toml").read_text(encoding="utf-8")


def default_tables() -> dict[str, Table]:
    """Return the default ladders as plain tables by key, in order; yours to change."""
    return tomllib.loads(_text())
