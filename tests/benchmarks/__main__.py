"""Time and memory of whole solves, and other ways beside them.

``python -m tests.benchmarks [--quick]`` prints the tables and adds a line to ``history.jsonl``.
Times are wall times of a machine that may be busy: only ratios of one run compare.
"""

import argparse
import os
import statistics
import subprocess
import sys
import time
from typing import Any

from tabulate import tabulate

from optimiser.solve import Settings
from tests.benchmarks.calendars import season
from tests.benchmarks.case import run
from tests.benchmarks.history import keep
from tests.benchmarks.rivals import rivals

#: Weeks, qualities, fixtures.
SIZES = (
    (26, 6, 15), (52, 6, 40), (104, 6, 80), (208, 6, 160),
    (52, 3, 40), (52, 8, 40), (52, 6, 10), (52, 6, 70),
)  # fmt: skip
QUICK_SIZES = ((26, 3, 15),)
CALENDARS = 20
EFFORT = Settings().dose_effort


def main() -> None:
    """Run all of it."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks")
    parser.add_argument("--quick", action="store_true", help="one small case of each kind")
    quick = parser.parse_args().quick
    effort = 0.5 if quick else EFFORT
    results: dict[str, Any] = {"quick": quick}
    results["sizes"] = [run(*size, 1, effort) for size in (QUICK_SIZES if quick else SIZES)]
    _show("Sizes", results["sizes"])
    calendars = [(26, 6, 15)] * 3 if quick else [(52, 6, 40)] * CALENDARS
    results["calendars"] = [run(*size, seed, effort) for seed, size in enumerate(calendars, 100)]
    _show("Random calendars", results["calendars"])
    print(_summary(results["calendars"]))
    seconds = 10 if quick else 60
    made = season(*((26, 3, 15) if quick else (52, 6, 40)), 1)
    results["ways"] = rivals(made, seconds)
    print(f"\nStage 1 of one season in other ways, at most {seconds} s")
    print(tabulate(results["ways"], headers="keys", tablefmt="github"))
    results["cold_start"] = _cold_start()
    print(f"\nseasonwright --help from a cold start: {results['cold_start']} s (median of 5)")
    keep(results)


def _show(title: str, rows: list[dict[str, Any]]) -> None:
    heads = ["weeks", "qualities", "fixtures", "stage 1", "s", "stage 2", "gap %", "s", "whole s",
             "peak MB", "match score"]  # fmt: skip
    table = [
        [
            row["weeks"], row["qualities"], row["fixtures"],
            *_stage(row, "emphasis")[::2], *_stage(row, "doses"),
            row["seconds"], row["peak_mb"], row.get("match_score", row["status"]),
        ]
        for row in rows
    ]  # fmt: skip
    print(f"\n{title}")
    print(tabulate(table, heads, tablefmt="github"))


def _stage(row: dict[str, Any], name: str) -> tuple[object, object, object]:
    stage = row.get(name)
    if stage is None:
        return "-", "-", "-"
    return stage["status"], round(100 * stage["gap"], 2), stage["seconds"]


def _summary(rows: list[dict[str, Any]]) -> str:
    """Say in one line what the random calendars come to."""
    planned = [row for row in rows if row["status"] == "planned"]
    soon = sum(r["emphasis"]["status"] == "proven" and r["emphasis"]["seconds"] <= 10
               for r in planned)  # fmt: skip
    gaps = [100 * row["doses"]["gap"] for row in planned] or [0]
    return (
        f"{len(planned)} of {len(rows)} have a plan; stage 1 proven within 10 s in {soon}; "
        f"gap of stage 2 {statistics.median(gaps):.2f} % in the middle, {max(gaps):.2f} % at most; "
        f"whole time {statistics.median(row['seconds'] for row in rows):.1f} s in the middle"
    )


def _cold_start() -> float:
    times = []
    for _ in range(5):
        began = time.perf_counter()
        subprocess.run(
            [sys.executable, "-m", "cli", "--help"],
            check=True,
            stdout=subprocess.DEVNULL,
            env=os.environ,
        )
        times.append(time.perf_counter() - began)
    return round(statistics.median(times), 2)


if __name__ == "__main__":
    main()
