"""Made seasons against every choice of blocks, bands and doses: is the proven plan the best?

``python -m tests.benchmarks.brute_force [--seasons 260]`` writes a row of
``docs/results/toughness.md``; the exit code is 1 if a plan was beaten.
"""

import argparse
import sys
import time
from importlib import import_module
from pathlib import Path
from random import Random

from optimiser.joint_model.solve import solve_season
from tests.benchmarks.tough_table import note

TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "joint_model"), str(TESTS / "optimum")]
SEASONS, BRUTE = import_module("test_whole_season"), import_module("every_choice")
MADE = import_module("tiny_seasons")


def wrong(seed: int) -> tuple[bool, bool]:
    """Return whether the season of a seed has a plan, and whether the solver was wrong of it."""
    rng = Random(seed)
    season = MADE.tiny_season(rng, 3, bands=rng.choice((2, 3)), closed=0, ladders=1)
    rules = SEASONS.few_rules(rng, 3)
    whole = solve_season(season, rules, SEASONS.PROVE)
    best = BRUTE.cheapest(season, rules, SEASONS.RATES)
    if best is None or whole.verdict is None:
        return False, best is not None or whole.status != "clash"
    proven = whole.verdict.status == "proven"
    return True, not proven or abs(whole.verdict.cost - best) > 1e-4 * best


def main() -> None:
    """Try season after season."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.brute_force")
    parser.add_argument("--seasons", type=int, default=260)
    many = parser.parse_args().seasons
    began = time.monotonic()
    told = [wrong(seed) for seed in range(many)]
    beaten = [seed for seed, (_, bad) in enumerate(told) if bad]
    planned = sum(there for there, _ in told)
    found = (
        f"{planned} planned as cheaply as the cheapest of all choices, {many - planned} with none "
        f"either way, {len(beaten)} wrong; {time.monotonic() - began:.0f} s"
    )
    print(found, beaten)
    note(
        "made seasons against every choice of blocks, bands and doses",
        f"brute_force --seasons {many}",
        str(many),
        found,
    )
    raise SystemExit(bool(beaten))


if __name__ == "__main__":
    main()
