"""Scenario files as Hypothesis makes them: each planned for, or refused in one line.

``python -m tests.benchmarks.made_scenarios [--cases 2000]`` runs the tests of made scenarios with
so many, a tenth of them planned, and writes a row of ``docs/results/toughness.md``.
"""

import argparse
import os
import subprocess
import sys
import time
from pathlib import Path

from tests.benchmarks.tough_table import note

ROOT = Path(__file__).parents[2]


def main() -> None:
    """Run them."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.made_scenarios")
    parser.add_argument("--cases", type=int, default=2000)
    cases, began = parser.parse_args().cases, time.monotonic()
    command = [sys.executable, "-m", "pytest", "-q", "-n", "0", "-p", "no:cacheprovider"]
    done = subprocess.run(
        [*command, "tests/tough/test_made_scenarios.py"],
        cwd=ROOT,
        env={**os.environ, "SEASONWRIGHT_CASES": str(cases)},
        capture_output=True,
        text=True,
        check=False,
    )
    good = done.returncode == 0
    told = f"a board, an audit or a refusal in one line for each, {cases // 10} short ones planned"
    found = f"{told if good else 'FAILED'}; {time.monotonic() - began:.0f} s"
    print(found if good else done.stdout)
    note("made scenario files", f"made_scenarios --cases {cases}", str(cases), found)
    raise SystemExit(done.returncode)


if __name__ == "__main__":
    main()
