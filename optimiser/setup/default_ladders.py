"""The default ladders as plain tables."""

import tomllib
from copy import deepcopy
from functools import cache
from importlib.resources import files
from typing import Any

Table = dict[str, Any]


@cache
def _tables() -> dict[str, Table]:
    text = files("optimiser").joinpath("setup", "qualities.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def default_tables() -> dict[str, Table]:
    """Return the default ladders as plain tables by key, in order; yours to change."""
    # read once and copied: of the time to read a season of a batch, half went into reading these
    return deepcopy(_tables())
