"""Solve one season in a process of its own, so that its memory is its own.

``python -m tests.benchmarks.case WEEKS QUALITIES FIXTURES SEED DOSE_EFFORT`` prints a line of JSON.
"""

import json
import resource
import subprocess
import sys
import time
from typing import Any

from constraints.load import load_rules
from optimiser.score import match_score
from optimiser.solve import Settings, solve_season
from tests.benchmarks.calendars import season


def measure(weeks: int, qualities: int, fixtures: int, seed: int, effort: float) -> dict[str, Any]:
    """Return what solving a season took and reached; times in seconds, memory in MB."""
    made = season(weeks, qualities, fixtures, seed)
    began = time.perf_counter()
    share = effort / Settings.dose_effort
    polish = share * Settings.polish_effort
    settings = Settings(dose_effort=effort, polish_effort=polish, seconds=120)
    outcome = solve_season(made, load_rules({}, made), settings)
    row: dict[str, Any] = {
        "weeks": weeks,
        "qualities": qualities,
        "fixtures": len(made.fixtures),
        "seed": seed,
        "status": outcome.status,
        "seconds": round(time.perf_counter() - began, 2),
        "peak_mb": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024,
    }
    for stage in outcome.stages:
        row[stage.name] = {
            "status": stage.status,
            "objective": stage.objective,
            "gap": round(stage.gap, 4),
            "seconds": round(stage.seconds, 2),
            "deterministic": round(stage.deterministic_time, 3),
        }
    if outcome.plan is not None:
        row["match_score"] = round(match_score(made, outcome.plan).score or 0, 1)
    return row


def run(weeks: int, qualities: int, fixtures: int, seed: int, effort: float) -> dict[str, Any]:
    """Measure in a new process."""
    words = [str(each) for each in (weeks, qualities, fixtures, seed, effort)]
    made = subprocess.run(
        [sys.executable, "-m", "tests.benchmarks.case", *words],
        capture_output=True,
        text=True,
        check=True,
    )
    row: dict[str, Any] = json.loads(made.stdout.splitlines()[-1])
    return row


if __name__ == "__main__":
    *sizes, last = sys.argv[1:]
    print(json.dumps(measure(*map(int, sizes), float(last))))
