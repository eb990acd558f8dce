"""Have CP-SAT confirm proofs of seasons by chance: ``python -m tests.benchmarks.certified [N]``.

Each season of 14 to 18 weeks is proven, then the other solver is asked for anything better, for ten
minutes at most.
"""

import sys
import time
from collections import Counter

from constraints.load import load_rules
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import solve_season
from tests.benchmarks.calendars import season as made

ENDS = {True: "confirmed", False: "refuted", None: "not ended"}


def main() -> None:
    """Print each end and how often it came."""
    ends: Counter[str] = Counter()
    for seed in range(int(sys.argv[1]) if len(sys.argv) > 1 else 50):
        weeks, qualities = 14 + seed % 5, 2 + seed % 3
        season = made(weeks, qualities, 2, seed)
        began = time.perf_counter()
        settings = Settings(certify=True).to_the_end()
        verdict = solve_season(season, load_rules({}, season), settings).verdict
        end = "no plan" if verdict is None else ENDS[verdict.confirmed]
        ends[end] += 1
        took = time.perf_counter() - began
        print(f"{weeks} weeks, {qualities} qualities, seed {seed}: {end}, {took:.0f} s", flush=True)
    print(dict(ends))


if __name__ == "__main__":
    main()
