"""Planted faults: does some test notice? ``python -m tests.benchmarks.mutants [FILE ...]``.

Each fault is one change of text in a copy of the source; the tests closest to it are run on the
copy. Names of files (blocks, score) pick those to plant in. The share that is caught is printed;
below 95 of a hundred the exit code is 1. All of them, run together, are written down in
``docs/results/mutants.md`` and ``toughness.md``.
"""

import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from tests.benchmarks.faults import FAULTS, Fault
from tests.benchmarks.tough_table import RESULTS, note

ROOT = Path(__file__).parents[2]
PARTS = ("optimiser", "constraints", "cli", "tests", "scenarios", "docs", "pyproject.toml")
ENOUGH = 0.95
#: Seconds after which a fault that makes tests run on and on is seen.
PATIENCE = 900


def caught(folder: Path, fault: Fault) -> bool:
    """Plant one fault, run the tests closest to it, take it out again."""
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
    command = [sys.executable, "-m", "pytest", "-x", "-q", "-n", "0", "-p", "no:cacheprovider"]
    environment = {**os.environ, "PYTHONPATH": str(folder), "PYTHONDONTWRITEBYTECODE": "1"}
    try:
        done = subprocess.run(
            [*command, *words], cwd=folder, env=environment, capture_output=True, timeout=PATIENCE
        )
    except subprocess.TimeoutExpired:
        return False
    return done.returncode == 0


def copied(folder: Path) -> None:
    """Copy what the tests need."""
    for part in PARTS:
        source = ROOT / part
        copy = shutil.copytree if source.is_dir() else shutil.copy
        copy(source, folder / part)


def write(rows: list[tuple[Fault, bool]]) -> None:
    """Write down what became of every fault."""
    many = sum(noticed for _, noticed in rows)
    lines = [
        "# Mutation check",
        "",
        "    python -m tests.benchmarks.mutants          # all; names of files pick some",
        "",
        "Faults are planted one at a time in a copy of the tree and the tests closest to them run",
        f"on it. Of {len(rows)}, {many} are caught ({100 * many / len(rows):.1f} %).",
        "",
        "| file | was | planted | |",
        "|---|---|---|---|",
    ]
    for fault, noticed in rows:
        was, planted = (f"`{' '.join(text.split())}`" for text in (fault.old, fault.new or " "))
        lines.append(
            f"| `{fault.file}` | {was} | {planted} | {'caught' if noticed else 'MISSED'} |"
        )
    (RESULTS / "mutants.md").write_text("\n".join(lines) + "\n", encoding="utf-8")
    note(
        "planted faults in rules, objective, response and cards",
        "mutants",
        str(len(rows)),
        f"{many} caught ({100 * many / len(rows):.1f} %)",
    )


def main() -> None:
    """Plant every fault, or those in the files that are named."""
    named = set(sys.argv[1:])
    faults = [fault for fault in FAULTS if not named or Path(fault.file).stem in named]
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        copied(folder)
        for words in sorted({words for fault in faults for words in fault.tests}):
            if not passes(folder, (words,)):
                raise SystemExit(f"without any fault these do not pass: {words}")
        rows = []
        for fault in faults:
            rows.append((fault, caught(folder, fault)))
            words = f"{fault.file}: {fault.old} -> {fault.new}"
            print("caught" if rows[-1][1] else "MISSED", words, flush=True)
    share = sum(noticed for _, noticed in rows) / len(rows)
    print(f"\n{100 * share:.1f} % of {len(rows)} planted faults are caught")
    if not named:
        write(rows)
    raise SystemExit(share < ENOUGH)


if __name__ == "__main__":
    main()
