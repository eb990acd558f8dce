"""Look for plans below the bound: ``python -m tests.benchmarks.below_bound [SEASONS] [TRIES]``.

Tiny seasons by brute force over blocks, bands and doses, larger ones by a second model, and by a
local search that knows only audits and the season cost. Nothing may lie below what was proven.
"""

import sys
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).parents[1]))
sys.path.insert(0, str(Path(__file__).parents[1] / "optimum"))
sys.path.insert(0, str(Path(__file__).parents[1] / "joint_model"))
from every_choice import cheapest
from local_moves import cheapest_near
from same_rules import rules_of
from test_second_model import random_limits
from test_whole_season import few_rules
from tiny_seasons import tiny_season
from whole_by_week import least_season

from constraints.session_caps import SessionCaps
from optimiser.domain.rates import Rates
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import solve_season


def brute_force(seasons: int) -> tuple[int, int]:
    """Return how many tiny seasons had a plan, and of how many the proven cost is the least."""
    planned = met = 0
    for seed in range(seasons):
        rng = Random(5000 + seed)
        season = tiny_season(rng, 3, bands=rng.choice((2, 3)), closed=0, ladders=1)
        rules = few_rules(rng, 3)
        found = solve_season(season, rules, Settings().to_the_end())
        best = cheapest(season, rules, Rates())
        if best is None or found.verdict is None:
            met += (best is None) == (found.verdict is None)
            continue
        planned += 1
        met += found.verdict.status == "proven" and found.verdict.cost <= best * (1 + 1e-4)
    return planned, met


def local_search(seasons: int, tries: int) -> tuple[int, int]:
    """Return how many legal plans were looked at, and how many seasons had one below the bound."""
    looked = below = 0
    for seed in range(seasons):
        rng = Random(6000 + seed)
        season = tiny_season(rng, rng.randint(8, 40), closed=2, ladders=rng.randint(1, 2))
        rules = [*few_rules(rng, 8), SessionCaps()]
        found = solve_season(season, rules, Settings())
        if found.plan is None or found.verdict is None:
            continue
        least, legal = cheapest_near(season, rules, found.plan, rng, tries)
        looked += legal
        below += least < found.verdict.bound
    return looked, below


def second_model(seasons: int) -> tuple[int, int]:
    """Return how many seasons were solved by both models, and how many cost the same."""
    planned = met = 0
    for seed in range(seasons):
        rng = Random(7000 + seed)
        season = tiny_season(rng, rng.randint(10, 20), bands=rng.randint(3, 4), closed=2)
        limits = random_limits(rng)
        found = solve_season(season, rules_of(limits), Settings().to_the_end())
        other = least_season(season, limits, Rates())
        if other is None or found.verdict is None:
            met += (other is None) == (found.verdict is None)
            continue
        planned += 1
        met += abs(found.verdict.cost - other) <= max(1.0, 1e-4 * other)
    return planned, met


if __name__ == "__main__":
    count, most = (int(word) for word in (*sys.argv[1:], "60", "2000")[:2])
    print("tiny seasons with a plan, seasons met:", *brute_force(200))
    print("seasons planned by a second model too, seasons of one cost:", *second_model(30))
    print("legal plans looked at, seasons with one below the bound:", *local_search(count, most))
