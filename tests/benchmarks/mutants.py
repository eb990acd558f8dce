"""Planted faults: does some test notice? ``python -m tests.benchmarks.mutants [FILE ...]``.

Each fault is one change of text in a copy of the source; the tests closest to it are run on the
copy. Names of files (blocks, score) pick those to plant in. The share that is caught is printed;
below nine of ten the exit code is 1.
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
    """One change: in ``file`` the first ``old`` becomes ``new``; ``tests`` are to notice it."""

    file: str
    tests: tuple[str, ...]
    old: str
    new: str


def of_rule(rule: str, old: str, new: str) -> Fault:
    """Return a fault of a rule, for its own tests and its part of those of all rules."""
    own = f"tests/constraints/test_{rule}.py"
    shared = f"tests/constraints/test_all_rules.py -k {rule}"
    return Fault(f"constraints/{rule}.py", (own, shared), old, new)


READINESS = (
    "tests/response/test_scale.py tests/evidence/test_response.py tests/groups/test_match_gain.py",
)
SCORE = ("tests/review/test_score.py tests/review/test_describe.py",)
TARGETS = ("tests/setup/test_targets.py",)
FAULTS = (
    of_rule("blocks", "arc.length > self.longest + spare", "arc.length > self.longest + spare + 1"),
    of_rule("blocks", "len(block) - self.longest,", "len(block) - self.longest - 1,"),
    of_rule("progression", "leaving(index, before, rung - most", "leaving(index, before, rung"),
    of_rule("progression", "if last == week - 1:", "if last == week - 2:"),
    of_rule("progression", "scaled(before, -100 - self.volume_rise)", "scaled(before, -100)"),
    of_rule("deload", 'arc.start if self.where == "first"', 'arc.start if self.where == "last"'),
    of_rule("deload", "if most > 1 or", "if most > 2 or"),
    of_rule("taper", "percents[week] = min(percent", "percents[week] = max(percent"),
    of_rule("taper", "over = self.apart - gap -", "over = self.apart - gap + 1 -"),
    of_rule("session_caps", "scaled(count, -longest)", "scaled(count, -longest - 5)"),
    of_rule("congestion", "crowd = min(busy[week], 3)", "crowd = min(busy[week], 2)"),
    of_rule("congestion", "end - 6 <= d <= end", "end - 5 <= d <= end"),
    of_rule("load_ramp", "scaled(own, -share)", "scaled(own, -share - 1)"),
    of_rule("load_ramp", "[-4:]", "[-3:]"),
    of_rule("phase_load", "-theirs) for week in before", "-ours) for week in before"),
    of_rule("phase_load", "week.phase is Phase.PRE", "week.phase is not Phase.IN"),
    of_rule("exposure", "len(counted) - gap + 1", "len(counted) - gap"),
    of_rule("exposure", "without >= gap", "without > gap"),
    of_rule("reentry", "range(top, len(", "range(top + 1, len("),
    of_rule("foundation", "past >= rung - 1", "past >= rung"),
    of_rule("revisit", "peaks[-1] - self.clear + 1", "peaks[-1] - self.clear"),
    of_rule("budget", "if most <= ceiling + spare:", "if most <= ceiling + spare + 9:"),
    of_rule("rest", "most = limit + self", "most = limit + 1 + self"),
    of_rule("pin", "at_least(below, int(dose)", "at_least(below, int(dose) - 1"),
    of_rule("spacing", "most = each + self", "most = each + 1 + self"),
    Fault("optimiser/response/readiness.py", READINESS, "np.exp(-7.0", "np.exp(-6.5"),
    Fault("optimiser/response/readiness.py", READINESS, "if since <= 0:", "if since < 0:"),
    Fault("optimiser/response/readiness.py", READINESS, '"medium", "high"]', '"high", "medium"]'),
    Fault("optimiser/review/score.py", SCORE, "Priority.MEDIUM: 2", "Priority.MEDIUM: 1"),
    Fault("optimiser/review/score.py", SCORE, "min(100.0, 100 * ready", "min(200.0, 100 * ready"),
    Fault("optimiser/review/audit.py", SCORE, "if sessions > pieces:", "if sessions > pieces + 1:"),
    Fault(
        "optimiser/setup/targets.py", TARGETS, "climb.weeks + 1 if climb", "climb.weeks if climb"
    ),
)


def caught(folder: Path, fault: Fault) -> bool:
    """Plant one fault, run the tests of its rule, take it out again."""
    path = folder / fault.file
    whole = path.read_text(encoding="utf-8")
    if fault.old not in whole:
        raise SystemExit(f"{fault.file} no longer has: {fault.old}")
    path.write_text(whole.replace(fault.old, fault.new, 1), encoding="utf-8")
    try:
        return not passes(folder, fault.tests)
    finally:
        path.write_text(whole, encoding="utf-8")


def passes(folder: Path, tests: tuple[str, ...]) -> bool:
    """Tell whether the tests pass on the copy; the first that fail settle it."""
    return all(_run(folder, words.split()) for words in tests)


def _run(folder: Path, words: list[str]) -> bool:
    command = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", *words]
    environment = {**os.environ, "PYTHONPATH": str(folder), "PYTHONDONTWRITEBYTECODE": "1"}
    done = subprocess.run(command, cwd=folder, env=environment, capture_output=True, text=True)
    if done.returncode not in (0, 1):
        raise SystemExit(done.stdout + done.stderr)
    return done.returncode == 0


def main() -> None:
    """Plant every fault, or those in the files that are named."""
    named = set(sys.argv[1:])
    faults = [fault for fault in FAULTS if not named or Path(fault.file).stem in named]
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        for part in PARTS:
            source = ROOT / part
            copy = shutil.copytree if source.is_dir() else shutil.copy
            copy(source, folder / part)
        for tests in sorted({fault.tests for fault in faults}):
            if not passes(folder, tests):
                raise SystemExit(f"without any fault these do not pass: {', '.join(tests)}")
        missed = []
        for fault in faults:
            noticed = caught(folder, fault)
            words = f"{fault.file}: {fault.old} -> {fault.new}"
            print("caught" if noticed else "MISSED", words, flush=True)
            if not noticed:
                missed.append(fault)
    share = 1 - len(missed) / len(faults)
    print(f"\n{100 * share:.0f} % of {len(faults)} planted faults are caught")
    raise SystemExit(share < ENOUGH)


if __name__ == "__main__":
    main()
