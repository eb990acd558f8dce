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

from tests.benchmarks.case import run
from tests.benchmarks.history import keep
from tests.benchmarks.rivals import rivals
from tests.demo_seasons import DEMOS

#: Weeks, qualities, fixtures.
SIZES = (
    (26, 6, 15), (52, 6, 40), (104, 6, 80), (208, 6, 160),
    (52, 3, 40), (52, 8, 40), (52, 6, 10), (52, 6, 70),
)  # fmt: skip
QUICK_SIZES = ((26, 3, 15),)
CALENDARS = 20


def main() -> None:
    """Run all of it."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks")
    parser.add_argument("--quick", action="store_true", help="one small case of each kind")
    quick = parser.parse_args().quick
    results: dict[str, Any] = {"quick": quick}
    results["sizes"] = [run(*size, 1) for size in (QUICK_SIZES if quick else SIZES)]
    _show("Sizes", results["sizes"])
    calendars = [(26, 6, 15)] * 3 if quick else [(52, 6, 40)] * CALENDARS
    results["calendars"] = [run(*size, seed) for seed, size in enumerate(calendars, 100)]
    _show("Random calendars", results["calendars"])
    print(_summary(results["calendars"]))
    seconds = 20 if quick else 300
    names = ("minimal",) if quick else DEMOS
    results["ways"] = [row for name in names for row in rivals(name, seconds)]
    print(f"\nOne season in other ways, until 1 % or {seconds} s")
    print(tabulate(results["ways"], headers="keys", tablefmt="github"))
    results["cold_start"] = _cold_start()
    print(f"\nseasonwright --help from a cold start: {results['cold_start']} s (median of 5)")
    keep(results)


def _show(title: str, rows: list[dict[str, Any]]) -> None:
    print(f"\n{title}")
    print(tabulate(rows, headers="keys", tablefmt="github"))


def _summary(rows: list[dict[str, Any]]) -> str:
    """Say in one line what the random calendars come to."""
    planned = [row for row in rows if row["status"] == "planned"]
    gaps = [100 * row["gap"] for row in planned] or [0]
    return (
        f"{len(planned)} of {len(rows)} have a plan; within 1 % in {sum(g <= 1 for g in gaps)}, "
        f"{max(gaps):.2f} % at most; whole time "
        f"{statistics.median(row['seconds'] for row in rows):.1f} s in the middle, "
        f"{max(row['seconds'] for row in rows):.1f} s at most"
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
