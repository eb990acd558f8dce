"""Have SCIP confirm proofs: ``python -m tests.benchmarks.certified [N]``.

The demo seasons and N seasons of 14 to 18 weeks by chance are proven, then the other solver is
asked for anything better, of the model as it was written, for ten minutes at most.
"""

import sys
import time
from collections import Counter
from collections.abc import Iterator

from cli.files.scenario_rules import read_rules
from constraints.load import load_rules
from optimiser.domain.season import Season
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import solve_season
from optimiser.rule import Rule
from tests.benchmarks.calendars import season as made
from tests.demo_seasons import DEMOS, load

ENDS = {True: "confirmed", False: "refuted", None: "not ended"}


def seasons(many: int) -> Iterator[tuple[str, Season, list[Rule]]]:
    """Yield the demos and so many seasons by chance."""
    for name in DEMOS:
        loaded = load(name)
        yield name, loaded.season, read_rules(loaded)
    for seed in range(many):
        weeks, qualities = 14 + seed % 5, 2 + seed % 3
        season = made(weeks, qualities, 2, seed)
        told = f"{weeks} weeks, {qualities} qualities, seed {seed}"
        yield told, season, load_rules({}, season)


def main() -> None:
    """Print each end and how often it came."""
    ends: Counter[str] = Counter()
    for name, season, rules in seasons(int(sys.argv[1]) if len(sys.argv) > 1 else 50):
        began = time.perf_counter()
        settings = Settings(certify=True).to_the_end()
        verdict = solve_season(season, rules, settings).verdict
        end = "no plan" if verdict is None else ENDS[verdict.confirmed]
        ends[end] += 1
        print(f"{name}: {end}, {time.perf_counter() - began:.0f} s", flush=True)
    print(dict(ends))


if __name__ == "__main__":
    main()
