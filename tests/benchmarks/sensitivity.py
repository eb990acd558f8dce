"""How much a plan and its great matches hang on numbers that nobody knows.

``python -m tests.benchmarks.sensitivity [SOLVED] [SEASON...]`` prints two tables. The first: what
great matches of the usual plan come to under 64 settings of the response drawn up to 20 % from what
is thought, and under one kind of number moved alone. The second: how far plans made anew under
SOLVED settings, and under SOLVED draws of the exchange rates, are from the usual plan.
"""

import sys
from collections.abc import Iterator, Sequence
from statistics import mean
from typing import Any

import numpy as np
from tabulate import tabulate

from cli.files.scenario_rules import read_rules
from optimiser.change.cells import changed_cells
from optimiser.domain.plan import Plan
from optimiser.domain.rates import Rates
from optimiser.domain.season import Season
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import solve_season
from optimiser.joint_model.worst_tenth import DRAWN, steady_plan
from optimiser.response.drawn_settings import SPREAD, drawn_settings
from optimiser.review.score import readiness
from optimiser.rule import Rule
from tests.demo_seasons import DEMOS, load

SOLVED = 8
KINDS = ("tau_fitness", "tau_fatigue", "fatigue_ratio", "match_fatigue")
RATES = ("band", "amount", "session", "change", "block", "odd_week", "rule")


def great(season: Season) -> list[int]:
    """Return the weeks of great matches, from 0."""
    return [week.index for week in season.weeks if any(f.priority.great for f in week.fixtures)]


def moved(season: Season, kind: str, factor: float) -> Season:
    """Return a season with one kind of number moved in every quality, or its matches' cost."""
    if kind == "match_fatigue":
        return season.model_copy(update={kind: factor * season.match_fatigue})
    qualities = tuple(
        each.model_copy(update={kind: factor * getattr(each, kind)}) for each in season.qualities
    )
    return season.model_copy(update={"qualities": qualities})


def at_great(season: Season, plan: Plan, weeks: Sequence[int]) -> list[float]:
    """Return readiness at great matches."""
    ready = readiness(season, plan)[0]
    return [ready[week] for week in weeks]


def lowest(season: Season, plan: Plan, weeks: Sequence[int], kind: str) -> float:
    """Return the most that the mean over great matches falls if one kind of number moves."""
    usual = mean(at_great(season, plan, weeks))
    ways = [moved(season, kind, factor) for factor in (1 - SPREAD, 1 + SPREAD)]
    return usual - min(mean(at_great(way, plan, weeks)) for way in ways)


def drawn_rates(count: int, seed: int = 0) -> Iterator[Rates]:
    """Yield exchange rates up to 20 % from the usual ones."""
    draw = np.random.default_rng(seed)
    for _ in range(count):
        yield Rates(**{n: getattr(Rates(), n) * draw.uniform(0.8, 1.2) for n in RATES})


def figures(
    name: str, season: Season, rules: list[Rule], solved: int
) -> tuple[dict[str, Any], ...]:
    """Return one row of each table."""
    settings, weeks = Settings(), great(season)
    usual = solve_season(season, rules, settings).plan
    assert usual is not None
    drawn = drawn_settings(season, DRAWN)
    every = np.sort([mean(at_great(each, usual, weeks)) for each in drawn])
    steady = steady_plan(season, rules, usual, settings)
    first = {
        "season": name,
        "thought": mean(at_great(season, usual, weeks)),
        "drawn": float(np.mean(every)),
        "worst tenth, each": mean(steady.ready_before.values()),
        "made for it": mean(steady.ready.values()),
        "gap": f"{100 * steady.gap:.1f} %",
        **{f"{kind} alone": -lowest(season, usual, weeks, kind) for kind in KINDS},
    }
    cells = sum(rung is not None for row in usual.rungs for rung in row)

    def apart(others: Iterator[tuple[Season, Rates]]) -> tuple[float, float]:
        shares, gains = [], []
        for other, rates in others:
            plan = solve_season(other, rules, Settings(rates=rates)).plan
            assert plan is not None
            shares.append(100 * len(changed_cells(usual, plan)) / cells)
            gains.append(mean(at_great(other, plan, weeks)) - mean(at_great(other, usual, weeks)))
        return mean(shares), mean(gains)

    response = apart((each, Rates()) for each in drawn[:solved])
    priced = apart((season, rates) for rates in drawn_rates(solved))
    second = {
        "season": name,
        "response: cells other, %": response[0],
        "response: great matches gain": response[1],
        "rates: cells other, %": priced[0],
        "rates: great matches gain": priced[1],
    }
    return first, second


def main() -> None:
    """Print both tables."""
    solved = int(sys.argv[1]) if len(sys.argv) > 1 else SOLVED
    rows = []
    for name in sys.argv[2:] or DEMOS:
        loaded = load(name)
        rows.append(figures(name, loaded.season, read_rules(loaded), solved))
        for table in zip(*rows, strict=True):
            print(tabulate(table, headers="keys", tablefmt="github", floatfmt=".1f"), flush=True)


if __name__ == "__main__":
    main()
