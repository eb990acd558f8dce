"""How plans read to a coach: ``python -m tests.benchmarks.coach [CALENDARS]``.

Wanted (common practice, no source): doses of like neighbouring weeks of a block differ in at most
5 % of cells; own load of loading weeks in pre-season is at least 1.4 times that in season; general
and maximal strength take more than 45 % of own minutes far from a peak, less than 35 % near it.
"""

import sys
import time
from collections.abc import Iterator

from cli.files.scenario_rules import read_rules
from constraints.load import load_rules
from optimiser.domain.plan import Plan
from optimiser.domain.season import Phase, Season
from optimiser.joint_model.solve import solve_season
from optimiser.review.score import readiness
from optimiser.rule import Rule
from tests.benchmarks.calendars import season as made
from tests.demo_seasons import DEMOS, load
from tests.plan_reading import (
    dose_changes,
    loading_weeks,
    longest_run,
    own_load,
    strength_share,
    usual_weeks,
)

#: Readiness target up to which a week is far from a peak; weeks up to one that are near it.
FAR, NEAR = 55.0, 2
HEADS = ("season", "like doses differ", "pre / in", "far", "near", "rungs", "run", "peaks", "s")


def cases(calendars: int) -> Iterator[tuple[str, Season, list[Rule]]]:
    """Yield the demos and so many seasons by chance."""
    for name in DEMOS:
        loaded = load(name)
        yield name, loaded.season, read_rules(loaded)
    for seed in range(calendars):
        season = made(52, 6, 18 + 3 * (seed % 8), seed)
        yield season.name, season, load_rules({}, season)


def figures(season: Season, rules: list[Rule], plan: Plan) -> list[str]:
    """Return the figures of one plan, as the columns of the table."""
    usual = usual_weeks(season, loading_weeks(season, rules, plan))
    ready, _ = readiness(season, plan)
    great = [w.index for w in season.weeks if any(f.priority.great for f in w.fixtures)]
    near = [w for peak in great for w in range(max(0, peak - NEAR + 1), peak + 1)]
    far = [w.index for w in season.weeks if w.target <= FAR and not w.closed]
    rungs = [[rung for rung in row if rung is not None] for row in plan.rungs]
    before, inside = (own_load(season, plan, usual, phase) for phase in (Phase.PRE, Phase.IN))
    return [
        _percent(dose_changes(season, plan, usual)),
        f"{before / inside:.2f}" if before and inside else "-",
        _percent(strength_share(season, plan, far)),
        _percent(strength_share(season, plan, near)),
        f"{1 + min(map(min, rungs))}-{1 + max(map(max, rungs))}",
        str(max(map(longest_run, rungs))),
        " ".join(f"{ready[w]:.0f}/{season.weeks[w].target:.0f}" for w in great) or "-",
    ]


def _percent(share: float | None) -> str:
    return "-" if share is None else f"{100 * share:.0f} %"


def main(calendars: int) -> None:
    """Print a row of the table for each season."""
    print(f"| {' | '.join(HEADS)} |\n|{'---|' * len(HEADS)}", flush=True)
    for name, season, rules in cases(calendars):
        began = time.perf_counter()
        plan = solve_season(season, rules).plan
        assert plan is not None
        took = f"{time.perf_counter() - began:.0f}"
        print(f"| {' | '.join([name, *figures(season, rules, plan), took])} |", flush=True)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 20)
