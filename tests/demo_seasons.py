"""The demo seasons, and how they are solved where their optimum is recorded."""

import json
from pathlib import Path
from typing import Any

from cli.files.scenario_file import Loaded, read_scenario
from cli.files.scenario_rules import read_rules
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import Outcome, solve_season

FOLDER = Path(__file__).parents[1] / "scenarios"
RECORD = FOLDER / "recorded.json"
LONG = ("football_cup", "gaelic_two_peaks", "hockey_two_halves", "rugby_long_season")
DEMOS = (*LONG, "lacrosse_term", "minimal")
#: A good plan soon; its bound is that of the linear relaxation.
SETTINGS = Settings(quick=True)


def load(name: str) -> Loaded:
    """Return a demo season by the name of its file."""
    return read_scenario(FOLDER / f"{name}.toml")


def solve(name: str, settings: Settings = SETTINGS) -> Outcome:
    """Return the outcome of a demo season."""
    loaded = load(name)
    return solve_season(loaded.season, read_rules(loaded), settings)


def recorded() -> dict[str, Any]:
    """Return what is on record, by name."""
    return json.loads(RECORD.read_text(encoding="utf-8"))
