"""Planted faults: does some test notice? ``python -m tests.benchmarks.mutants [NAME ...]``.

Each fault is one change of text in a copy of the source; the tests of its rule are run on the copy.
The share that is caught is printed, and what was not; below nine of ten the exit code is 1.
"""

import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).parents[2]
PARTS = ("optimiser", "constraints", "cli", "tests", "scenarios", "pyproject.toml")
ENOUGH = 0.9


class Fault(NamedTuple):
    """One change: in ``file`` the first ``old`` becomes ``new``."""

    rule: str
    old: str
    new: str

    @property
    def file(self) -> str:
        """Return the file it is planted in."""
        return f"constraints/{self.rule}.py"


FAULTS = (
    Fault("blocks", "arc.length > self.longest + spare", "arc.length > self.longest + spare + 1"),
    Fault("blocks", "len(block) - self.longest,", "len(block) - self.longest - 1,"),
    Fault("progression", "leaving(index, before, rung - most", "leaving(index, before, rung"),
    Fault("progression", "if last == week - 1:", "if last == week - 2:"),
    Fault("progression", "scaled(before, -100 - self.volume_rise)", "scaled(before, -100)"),
    Fault("deload", 'arc.start if self.where == "first"', 'arc.start if self.where == "last"'),
    Fault("deload", "if most > 1 or", "if most > 2 or"),
    Fault("taper", "percents[week] = min(percent", "percents[week] = max(percent"),
    Fault("taper", "over = self.apart - gap -", "over = self.apart - gap + 1 -"),
    Fault("session_caps", "scaled(count, -longest)", "scaled(count, -longest - 5)"),
    Fault("congestion", "crowd = min(busy[week], 3)", "crowd = min(busy[week], 2)"),
    Fault("congestion", "end - 6 <= d <= end", "end - 5 <= d <= end"),
    Fault("load_ramp", "scaled(own, -share)", "scaled(own, -share - 1)"),
    Fault("load_ramp", "[-4:]", "[-3:]"),
    Fault("exposure", "len(counted) - gap + 1", "len(counted) - gap"),
    Fault("exposure", "without >= gap", "without > gap"),
    Fault("reentry", "range(top, len(", "range(top + 1, len("),
    Fault("foundation", "past >= rung - 1", "past >= rung"),
    Fault("revisit", "peaks[-1] - self.clear + 1", "peaks[-1] - self.clear"),
    Fault("budget", "if most <= ceiling + spare:", "if most <= ceiling + spare + 9:"),
    Fault("rest", "most = limit + self", "most = limit + 1 + self"),
    Fault("pin", "at_least(below, int(dose)", "at_least(below, int(dose) - 1"),
    Fault("spacing", "most = room.each + self", "most = room.each + 1 + self"),
)


def caught(folder: Path, fault: Fault) -> bool:
    """Plant one fault, run the tests of its rule, take it out again."""
    path = folder / fault.file
    whole = path.read_text(encoding="utf-8")
    if fault.old not in whole:
        raise SystemExit(f"{fault.file} no longer has: {fault.old}")
    path.write_text(whole.replace(fault.old, fault.new, 1), encoding="utf-8")
    try:
        return not passes(folder, fault.rule)
    finally:
        path.write_text(whole, encoding="utf-8")


def passes(folder: Path, rule: str) -> bool:
    """Tell whether the tests of a rule pass on the copy: its own first, then those of all rules."""
    own = [f"tests/constraints/test_{rule}.py"]
    shared = ["tests/constraints/test_all_rules.py", "-k", rule]
    return all(_run(folder, words) for words in (own, shared))


def _run(folder: Path, words: list[str]) -> bool:
    command = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", *words]
    environment = {**os.environ, "PYTHONPATH": str(folder), "PYTHONDONTWRITEBYTECODE": "1"}
    done = subprocess.run(command, cwd=folder, env=environment, capture_output=True, text=True)
    if done.returncode not in (0, 1):
        raise SystemExit(done.stdout + done.stderr)
    return done.returncode == 0


def main() -> None:
    """Plant every fault, or those of the rules that are named."""
    named = set(sys.argv[1:])
    faults = [fault for fault in FAULTS if not named or fault.rule in named]
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        for part in PARTS:
            source = ROOT / part
            copy = shutil.copytree if source.is_dir() else shutil.copy
            copy(source, folder / part)
        missed = []
        for fault in faults:
            noticed = caught(folder, fault)
            print("caught" if noticed else "MISSED", fault.rule, fault.old, flush=True)
            if not noticed:
                missed.append(fault)
    share = 1 - len(missed) / len(faults)
    print(f"\n{100 * share:.0f} % of {len(faults)} planted faults are caught")
    raise SystemExit(share < ENOUGH)


if __name__ == "__main__":
    main()
