"""Ctrl-C at random moments: does each command end soon, with a whole result or none?

``python -m tests.benchmarks.interrupts [--moments 10] [--seed 0] [COMMAND ...]``
Each command runs once to its end, which tells how long it takes; the moments lie within that time.
Prints a row a moment; the exit code is 1 if one took more than two seconds or left half a result.
"""

import argparse
import json
import os
import random
import select
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import NamedTuple

from tabulate import tabulate

ROOT = Path(__file__).parents[2]
SEASON = ROOT / "scenarios" / "hockey_two_halves.toml"
SOON = 2.0
#: Words of each command.
COMMANDS = {
    "plan": f"plan {SEASON} --format json --out plan.json",
    "prices": f"prices {SEASON} --format json",
    "sweep": f"sweep {SEASON} --grid blocks.longest=4..6 --jobs 2 --format json",
    "batch": f"batch {SEASON.parent} --jobs 2 --format json --out rows.json",
}
#: Seconds in which Python itself starts, and the longest a whole run may take.
LAUNCH, WHOLE = 0.1, 300.0
#: Done, and ended by Ctrl-C; Python dies of the signal where it stopped inside ``exec``.
QUIET = (0, 130, -signal.SIGINT)


class Ended(NamedTuple):
    """How a command ended: its code, seconds after Ctrl-C, and what it left."""

    code: int
    seconds: float
    stdout: str
    stderr: str
    files: dict[str, str]

    @property
    def fault(self) -> str:
        """Return what is wrong with that, empty if nothing is."""
        if self.code not in QUIET:
            return f"exit code {self.code}: {self.stderr}"
        if "Traceback" in self.stderr:
            return "a traceback"
        left = [self.stdout] * bool(self.stdout.strip()) + [
            text for name, text in self.files.items() if name.endswith(".json")
        ]
        try:
            for text in left:
                json.loads(text)
        except ValueError as error:
            return f"half a result: {error}"
        stray = [name for name in self.files if name.startswith(".")]
        return f"left behind: {', '.join(stray)}" if stray else ""


def started(words: str, place: str) -> subprocess.Popen[str]:
    """Start a command in the folder ``place``, in a group of processes of its own."""
    return subprocess.Popen(
        [sys.executable, "-m", "cli", *words.split()],
        cwd=place,
        env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONFAULTHANDLER": "1"},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
        # a shell has what it runs in the background ignore Ctrl-C
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),
    )


def interrupted(words: str, wait: float, patience: float = 60.0) -> Ended:
    """Start a command, send Ctrl-C to all its processes after ``wait`` seconds, see it end."""
    with tempfile.TemporaryDirectory() as place, started(words, place) as process:
        try:
            stdout, stderr = process.communicate(timeout=wait)
            began = time.perf_counter()
        except subprocess.TimeoutExpired:
            os.killpg(process.pid, signal.SIGINT)
            began = time.perf_counter()
            try:
                stdout, stderr = process.communicate(timeout=patience)
            except subprocess.TimeoutExpired:
                os.killpg(process.pid, signal.SIGABRT)  # says where it hangs
                stdout, stderr = process.communicate()
        seconds = time.perf_counter() - began
        files = {path.name: path.read_text() for path in Path(place).iterdir() if path.is_file()}
        return Ended(process.returncode, seconds, stdout, stderr, files)


def interrupted_at_the_end(words: str, after: float) -> Ended:
    """Start a command, send Ctrl-C so many seconds after its result began to come, see it end."""
    with tempfile.TemporaryDirectory() as place, started(words, place) as process:
        select.select([process.stdout], [], [], WHOLE)
        time.sleep(after)
        os.killpg(process.pid, signal.SIGINT)
        began = time.perf_counter()
        stdout, stderr = process.communicate(timeout=60.0)
        seconds = time.perf_counter() - began
        return Ended(process.returncode, seconds, stdout, stderr, {})


def moments(words: str, count: int, chance: random.Random) -> list[float]:
    """Return that many moments within the time the command takes to its end."""
    began = time.perf_counter()
    ended = interrupted(words, WHOLE)
    took = time.perf_counter() - began
    if ended.fault or took >= WHOLE:
        raise SystemExit(f"{words} did not come to its end: {ended.fault or 'too slow'}")
    return [chance.uniform(LAUNCH, took) for _ in range(count)]


def main() -> None:
    """Try every command, or those named, at random moments."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.interrupts")
    parser.add_argument("--moments", type=int, default=10)
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("names", nargs="*", default=list(COMMANDS))
    asked = parser.parse_args()
    chance, rows = random.Random(asked.seed), []
    for name in asked.names:
        words = COMMANDS[name]
        for wait in moments(words, asked.moments, chance):
            ended = interrupted(words, wait)
            late = f"{ended.seconds:.1f} s" if ended.seconds > SOON else ""
            fault = ended.fault or late
            result = "whole" if ended.stdout.strip() else "none"
            rows.append([name, wait, ended.code, ended.seconds, result, fault])
            print(*rows[-1], file=sys.stderr, flush=True)
    heads = ["command", "Ctrl-C after s", "exit code", "ended after s", "result", "fault"]
    print(tabulate(rows, heads, floatfmt=".2f", tablefmt="github"))
    raise SystemExit(any(row[-1] for row in rows))


if __name__ == "__main__":
    main()
