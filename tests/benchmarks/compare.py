"""Optimised plans against rules of thumb, sameness and chance, by a simulation of their days.

``python -m tests.benchmarks.compare [SEASON ...]`` prints one row a demo season and plan.
"""

import sys
from random import Random

from tabulate import tabulate

from cli.files.scenario_rules import read_rules
from optimiser.board.outline import open_stretches
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose
from optimiser.domain.rates import Rates
from optimiser.domain.season import Season
from optimiser.engine.cp_sat_search import Effort, minimise
from optimiser.joint_model.solve import make_board
from optimiser.joint_model.start import price_bands
from optimiser.review.audit import audit_plan
from optimiser.review.score import match_score
from optimiser.rule import Rule
from tests.day_by_day import match_readiness
from tests.demo_seasons import DEMOS, load, solve
from tests.rules_of_thumb import greedy

CHANCES = 3
#: Deterministic seconds for a plan by chance; the next if none was found.
EFFORTS = (2.5, 10.0, 40.0)


def flat(season: Season) -> Plan:
    """Return the same all year: the middle band at the reduced dose, in blocks of four weeks."""
    opened = [not week.closed for week in season.weeks]
    return Plan(
        starts=tuple(
            week
            for stretch in open_stretches(season)
            for week in stretch
            if (week - stretch.start) % 4 == 0
        ),
        rungs=tuple(
            tuple(len(quality.bands) // 2 if here else None for here in opened)
            for quality in season.qualities
        ),
        doses=(tuple(Dose.REDUCED if here else Dose.NONE for here in opened),)
        * len(season.qualities),
        field=tuple(2 * here for here in opened),
        gym=tuple(2 * here for here in opened),
    )


def random_legal(season: Season, rules: list[Rule], seed: int) -> Plan | None:
    """Return a plan that keeps every rule, its emphasis and its doses as chance wants them."""
    rng = Random(seed)
    wanted = tuple(tuple(rng.uniform(0, 100) for _ in season.weeks) for _ in season.qualities)
    board = make_board(season.model_copy(update={"emphasis": wanted}), rules)
    price_bands(board, Rates())
    for var, name in enumerate(board.model.names):
        if name.startswith("dose["):
            board.model.cost[var] = rng.randint(-40, 10)
    for effort in EFFORTS:
        found = minimise(board.model, Effort(deterministic=effort, seconds=120, seed=seed))
        if found.values:
            return board.read(found.values)
    return None


def rows(name: str) -> list[list[object]]:
    """Return the rows of one demo season, the optimised plan first."""
    loaded = load(name)
    season, rules = loaded.season, read_rules(loaded)
    plans = [("optimised", solve(name).plan), ("rules of thumb", greedy(season))]
    plans.append(("the same all year", flat(season)))
    plans += [(f"chance {n + 1}", random_legal(season, rules, n)) for n in range(CHANCES)]
    return [
        [
            name,
            kind,
            round(match_readiness(season, plan), 2),
            round(match_score(season, plan).score or 0, 2),
            len(audit_plan(season, plan, rules)),
        ]
        for kind, plan in plans
        if plan is not None
    ]


def main() -> None:
    """Print the table and say where the optimised plan does not come first."""
    table, beaten = [], []
    for name in sys.argv[1:] or DEMOS:
        here = rows(name)
        beaten += [f"{name}: {row[1]}" for row in here[1:] if row[2] >= here[0][2]]
        table += here
    heads = ["season", "plan", "at fixtures, by days", "by weeks", "breaches"]
    print(tabulate(table, heads, tablefmt="github"))
    print("\nNot above:", "; ".join(beaten) if beaten else "none")


if __name__ == "__main__":
    main()
