"""Deterministic time of small seasons: ``python -m tests.benchmarks.effort`` records it anew.

It counts the solver's work, not seconds, so it is the same on any machine with the same version.
"""

import json
from importlib.metadata import version
from pathlib import Path
from typing import Any

from cli.files.safe_write import write_text
from constraints.load import load_rules
from optimiser.domain.season import Season
from optimiser.solve import Settings, solve_season
from tests.benchmarks.calendars import season

BASELINE = Path(__file__).parent / "effort.json"
SETTINGS = Settings(dose_effort=3.0, polish_effort=0.0, close=0.004, beyond=0.0)
#: Weeks, qualities, fixtures, seed.
CASES = ((16, 3, 4, 1), (22, 3, 6, 2), (20, 4, 6, 3), (24, 4, 12, 4))


def versions() -> dict[str, str]:
    """Return the versions of the solvers."""
    return {name: version(name) for name in ("ortools", "highspy")}


def spent() -> dict[str, list[float]]:
    """Return the deterministic time of each stage of each small season."""
    return {"-".join(map(str, case)): _of(season(*case)) for case in CASES}


def _of(made: Season) -> list[float]:
    outcome = solve_season(made, load_rules({}, made), SETTINGS)
    return [round(stage.deterministic_time, 4) for stage in outcome.stages]


def baseline() -> dict[str, Any]:
    """Return what is on record, with the versions it was recorded with."""
    found: dict[str, Any] = json.loads(BASELINE.read_text(encoding="utf-8"))
    return found


if __name__ == "__main__":
    text = json.dumps({**versions(), "spent": spent()}, indent=2)
    write_text(BASELINE, text + "\n")
    print(text)
