"""Many runs of ``plan --format json`` in one process: does its memory grow?

``python -m tests.benchmarks.memory [--runs 1000] [SCENARIO]`` prints resident memory as it goes.
"""

import argparse
import contextlib
import gc
import io
import json
import os
from itertools import islice
from pathlib import Path
from statistics import mean
from typing import NamedTuple

from cli.main import main as seasonwright

SMALLEST = Path(__file__).parents[2] / "scenarios" / "minimal.toml"
PAGE = os.sysconf("SC_PAGE_SIZE")


class Growth(NamedTuple):
    """Resident MB after each run, and how much more the last quarter has than the second."""

    resident: list[float]

    @property
    def megabytes(self) -> float:
        """Return the growth in MB; the first quarter, in which caches fill, does not count."""
        quarter = len(self.resident) // 4
        return mean(self.resident[-quarter:]) - mean(self.resident[quarter : 2 * quarter])


def resident() -> float:
    """Return the MB this process has in memory now."""
    gc.collect()
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * PAGE / 1e6


def plans(scenario: Path, *options: str):
    """Yield the plan document of one run after another."""
    words = ["plan", str(scenario), "--format", "json", *options]
    # click keeps every stream it ever wrote to: with a new one each run, what is written grows
    told = io.StringIO()
    while True:
        told.seek(0)
        told.truncate()
        with contextlib.redirect_stdout(told), contextlib.redirect_stderr(io.StringIO()):
            seasonwright(words, standalone_mode=False)
        yield json.loads(told.getvalue())


def measure(scenario: Path, runs: int, *options: str, told=lambda run, size: None) -> Growth:
    """Return what ``runs`` runs leave in memory."""
    sizes = []
    for run, _ in enumerate(islice(plans(scenario, *options), runs), 1):
        sizes.append(resident())
        told(run, sizes[-1])
    return Growth(sizes)


def main() -> None:
    """Measure and print a line every tenth of the way."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.memory")
    parser.add_argument("--runs", type=int, default=1000)
    parser.add_argument("scenario", nargs="?", type=Path, default=SMALLEST)
    asked = parser.parse_args()

    def told(run: int, size: float) -> None:
        if run % max(1, asked.runs // 10) == 0:
            print(f"{run:5d} runs: {size:.1f} MB", flush=True)

    growth = measure(asked.scenario, asked.runs, told=told)
    print(f"growth from the second quarter to the last: {growth.megabytes:.1f} MB")


if __name__ == "__main__":
    main()
