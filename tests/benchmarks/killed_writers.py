"""Processes killed at every step of every write: is a folder left as it was, or as it was to be?

``python -m tests.benchmarks.killed_writers`` runs the tests that kill, counts the kills that landed
and writes a row of ``docs/results/toughness.md``.
"""

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.benchmarks.tough_table import note

ROOT = Path(__file__).parents[2]
#: Tests that kill: what people enter, commands, the page and groups.
TESTS = (
    "tests/season/test_commit.py",
    "tests/season/test_killed_commands.py",
    "tests/groups/test_groups_command.py",
)


def main() -> None:
    """Run them, and count."""
    began = time.monotonic()
    with tempfile.TemporaryDirectory() as place:
        count = Path(place) / "kills"
        command = [sys.executable, "-m", "pytest", "-q", "-n", "0", "-p", "no:cacheprovider"]
        done = subprocess.run(
            [*command, *TESTS],
            cwd=ROOT,
            env={**os.environ, "SEASONWRIGHT_KILLS": str(count)},
            capture_output=True,
            text=True,
            check=False,
        )
        kills = count.read_text(encoding="ascii").count("\n") if count.exists() else 0
    good = done.returncode == 0
    found = "the old files whole or the new ones, each time" if good else "FAILED"
    print(kills, found, done.stdout[-2000:])
    told = f"{found}; {time.monotonic() - began:.0f} s"
    note("SIGKILL at the steps of a write", "killed_writers", f"{kills} kills that landed", told)
    raise SystemExit(done.returncode)


if __name__ == "__main__":
    main()
