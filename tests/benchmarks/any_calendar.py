"""Try calendars by chance.

``python -m tests.benchmarks.any_calendar [FIRST] [COUNT] [LOG] [STEP]``

With STEP every so manieth goes through the commands `new`, `plan` and `audit` instead, from a list
of matches as a file. Every end is a line of LOG as soon as it is known; a calendar that stands in
it is not tried again, so a run that was cut off goes on where it stood.
"""

import sys
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.tough.any_calendar import any_calendar
from tests.tough.by_command import end_by_command
from tests.tough.keeps_its_rules import PLANNED, end_of

FIRST, COUNT = 0, 3000


def known(log: Path | None) -> dict[int, str]:
    """Return the ends that an earlier run wrote down."""
    if log is None or not log.exists():
        return {}
    rows = (line.split(": ", 1) for line in log.read_text().splitlines())
    return {int(number): end for number, end in rows}


def straight(seed: int) -> str:
    """Return what became of a calendar, its rules asked without the commands."""
    return end_of(any_calendar(seed))


def commanded(seed: int) -> str:
    """Return what became of a calendar by the commands."""
    with TemporaryDirectory() as folder:
        return end_by_command(any_calendar(seed), Path(folder))


def tried(seeds: range, log: Path | None, end: Callable[[int], str]) -> Counter[str]:
    """Return how often each end came, and print every calendar that was not planned."""
    ends = known(log)
    for seed in seeds:
        if seed in ends:
            continue
        ends[seed] = end(seed)
        if ends[seed] != PLANNED:
            print(f"calendar {seed}: {ends[seed]}", flush=True)
        if log is not None:
            with log.open("a") as out:
                out.write(f"{seed}: {ends[seed]}\n")
    return Counter(ends[seed].split(":")[0] for seed in seeds)


def main() -> None:
    """Print every calendar without a plan or with an untrue waiver, and the count of all ends."""
    first, count = (int(sys.argv[1 + at]) if len(sys.argv) > 1 + at else usual
                    for at, usual in enumerate((FIRST, COUNT)))  # fmt: skip
    log = Path(sys.argv[3]) if len(sys.argv) > 3 else None
    step = int(sys.argv[4]) if len(sys.argv) > 4 else 0
    seeds = range(first, first + count, step or 1)
    found = tried(seeds, log, commanded if step else straight)
    print(", ".join(f"{end}: {many}" for end, many in found.most_common()))


if __name__ == "__main__":
    main()
