"""Try calendars by chance: ``python -m tests.benchmarks.any_calendar [FIRST] [COUNT] [LOG]``.

Every end is a line of LOG as soon as it is known; a calendar that stands in it is not tried again,
so a run that was cut off goes on where it stood.
"""

import sys
from collections import Counter
from pathlib import Path

from tests.tough.any_calendar import any_calendar
from tests.tough.keeps_its_rules import PLANNED, end_of

FIRST, COUNT = 0, 3000


def known(log: Path | None) -> dict[int, str]:
    """Return the ends that an earlier run wrote down."""
    if log is None or not log.exists():
        return {}
    rows = (line.split(": ", 1) for line in log.read_text().splitlines())
    return {int(number): end for number, end in rows}


def main() -> None:
    """Print every calendar without a plan or with an untrue waiver, and the count of all ends."""
    first, count = (int(sys.argv[1 + at]) if len(sys.argv) > 1 + at else usual
                    for at, usual in enumerate((FIRST, COUNT)))  # fmt: skip
    log = Path(sys.argv[3]) if len(sys.argv) > 3 else None
    ends = known(log)
    for seed in range(first, first + count):
        if seed in ends:
            continue
        ends[seed] = end_of(any_calendar(seed))
        if ends[seed] != PLANNED:
            print(f"calendar {seed}: {ends[seed]}", flush=True)
        if log is not None:
            with log.open("a") as out:
                out.write(f"{seed}: {ends[seed]}\n")
    here = Counter(ends[seed].split(":")[0] for seed in range(first, first + count))
    print(", ".join(f"{end}: {many}" for end, many in here.most_common()))


if __name__ == "__main__":
    main()
