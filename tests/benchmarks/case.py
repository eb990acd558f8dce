"""Solve one season in a process of its own, so that its memory is its own.

``python -m tests.benchmarks.case WEEKS QUALITIES FIXTURES SEED`` prints a line of JSON.
"""

import json
import resource
import subprocess
import sys
import time
from typing import Any

from constraints.load import load_rules
from optimiser.joint_model.solve import solve_season
from optimiser.review.score import match_score
from tests.benchmarks.calendars import season


def measure(weeks: int, qualities: int, fixtures: int, seed: int) -> dict[str, Any]:
    """Return what solving a season took and reached; times in seconds, memory in MB."""
    made = season(weeks, qualities, fixtures, seed)
    began = time.perf_counter()
    outcome = solve_season(made, load_rules({}, made))
    row: dict[str, Any] = {
        "weeks": weeks,
        "qualities": qualities,
        "fixtures": len(made.fixtures),
        "seed": seed,
        "status": outcome.status,
        "seconds": round(time.perf_counter() - began, 2),
        "processor": round(time.process_time(), 2),
        "peak_mb": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024,
    }
    if outcome.plan is not None and outcome.verdict is not None:
        row["gap"] = round(outcome.verdict.gap, 5)
        row["decided_by"] = outcome.verdict.decided_by
        row["match_score"] = round(match_score(made, outcome.plan).score or 0, 1)
    return row


def run(weeks: int, qualities: int, fixtures: int, seed: int) -> dict[str, Any]:
    """Measure in a new process."""
    words = [str(each) for each in (weeks, qualities, fixtures, seed)]
    made = subprocess.run(
        [sys.executable, "-m", "tests.benchmarks.case", *words],
        capture_output=True,
        text=True,
        check=True,
    )
    row: dict[str, Any] = json.loads(made.stdout.splitlines()[-1])
    return row


if __name__ == "__main__":
    print(json.dumps(measure(*map(int, sys.argv[1:]))))
