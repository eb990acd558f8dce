"""How plans read to a coach: ``python -m tests.benchmarks.coach [CALENDARS]``.

Wanted (common practice, no source): doses of like neighbouring weeks of a block differ in at most
5 % of cells; own load of loading weeks in pre-season is at least 1.4 times that in season; general
and maximal strength take more than 45 % of own minutes far from a peak, less than 35 % near it.
"""

import sys
import time
from collections.abc import Iterator
from itertools import groupby, pairwise
from statistics import mean

from cli.files.scenario_rules import read_rules
from constraints.load import load_rules
from optimiser.domain.plan import Plan
from optimiser.domain.season import Phase, Season
from optimiser.joint_model.solve import solve_season
from optimiser.review.score import readiness, training_load
from optimiser.rule import Rule
from tests.benchmarks.calendars import season as made
from tests.demo_seasons import DEMOS, load

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
    eased = {week for rule in rules for week in rule.marks(plan, season)}
    usual = [
        week.index
        for week in season.weeks
        if not week.closed and week.index not in eased and len(week.fixtures) < 2
    ]
    ready, _ = readiness(season, plan)
    great = [w.index for w in season.weeks if any(f.priority.great for f in w.fixtures)]
    near = [w for peak in great for w in range(max(0, peak - NEAR + 1), peak + 1)]
    far = [w.index for w in season.weeks if w.target <= FAR and not w.closed]
    rungs = [[rung for rung in row if rung is not None] for row in plan.rungs]
    return [
        _changes(season, plan, set(usual)),
        _ratio(season, plan, usual),
        _strength(season, plan, far),
        _strength(season, plan, near),
        f"{1 + min(map(min, rungs))}-{1 + max(map(max, rungs))}",
        str(max(len(list(run)) for row in rungs for _, run in groupby(row))),
        " ".join(f"{ready[w]:.0f}/{season.weeks[w].target:.0f}" for w in great) or "-",
    ]


def _changes(season: Season, plan: Plan, usual: set[int]) -> str:
    pairs = [
        (before, now)
        for block in plan.blocks()
        for before, now in pairwise(block)
        if {before, now} <= usual
        and len(season.weeks[before].fixtures) == len(season.weeks[now].fixtures)
    ]
    cells = [row[before] is row[now] for row in plan.doses for before, now in pairs]
    return f"{100 * cells.count(False) / len(cells):.0f} %" if cells else "-"


def _ratio(season: Season, plan: Plan, usual: list[int]) -> str:
    loads = {
        phase: [training_load(season, plan, w) for w in usual if season.weeks[w].phase is phase]
        for phase in (Phase.PRE, Phase.IN)
    }
    return f"{mean(loads[Phase.PRE]) / mean(loads[Phase.IN]):.2f}" if all(loads.values()) else "-"


def _strength(season: Season, plan: Plan, weeks: list[int]) -> str:
    by_quality = {
        quality.key: sum(quality.minutes(doses[w], rungs[w]) for w in weeks)
        for quality, doses, rungs in zip(season.qualities, plan.doses, plan.rungs, strict=True)
    }
    whole = sum(by_quality.values())
    strong = sum(value for key, value in by_quality.items() if key.endswith("strength"))
    return f"{100 * strong / whole:.0f} %" if whole else "-"


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
