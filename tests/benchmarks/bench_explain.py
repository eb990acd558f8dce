"""How long explanations take: run it by hand on a quiet machine, it asserts nothing.

    python tests/benchmarks/bench_explain.py [--prices] [--season football_cup]

Wanted on a season of 52 weeks: a clash in 1 s at the median and 3 s at most, three repairs in 5 s,
"forbidden" or "allowed" in 1 s, what another choice costs in 10 s; prices of all rules in 60 s on
2 cores.
"""

import argparse
import resource
import statistics
import time
from pathlib import Path

from cli.files.scenario_file import load_scenario
from constraints.load import load_rules
from optimiser.explain.clash import Argument, argue
from optimiser.explain.oracle import Clock
from optimiser.explain.prices.price import price_rules
from optimiser.explain.repair import Repairs
from optimiser.explain.why.answer import Forbidden, why_not
from optimiser.explain.why.asked import Asked
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import solve_season

SCENARIOS = Path(__file__).parents[2] / "scenarios"
DEMO = "football_cup"
QUALITIES = ("sprint", "resisted_sprint", "plyometrics", "power", "max_strength")


def pin(*choices):
    return "[rules.pin]\nchoices = [" + ", ".join(f"{{ {each} }}" for each in choices) + "]\n"


def full(weeks):
    return [f'week = {w}, quality = "{q}", dose = "full"' for w in weeks for q in QUALITIES]


#: What makes the season impossible, one cause each.
CAUSES = {
    "top band in week 1": pin('week = 1, quality = "sprint", band = 5'),
    "top band in week 8": pin('week = 8, quality = "sprint", band = 5'),
    "two bands too far apart": pin(
        'week = 20, quality = "power", band = 1', 'week = 24, quality = "power", band = 5'
    ),
    "no gym in season": "[rules.session_caps]\nin_season = { field = 2, gym = 0 }\n",
    "few contacts": "[rules.budget]\n"
    "ceilings = { contacts = { off_season = 160, pre_season = 200, in_season = 5 } }\n",
    "eight full weeks": pin(*full(range(12, 20))),
    "peaks far apart": "[rules.taper]\napart = 20\n",
    "long foundation": "[rules.foundation]\nweeks = 10\nwithin = 10\n"
    + pin('week = 10, quality = "max_strength", band = 4'),
}


def wall_and_work(call):
    """Return what a call gives, its seconds by the clock and the processor's share of them."""
    began, used = time.perf_counter(), cpu()
    result = call()
    return result, time.perf_counter() - began, cpu() - used


def cpu():
    usage = resource.getrusage(resource.RUSAGE_SELF)
    return usage.ru_utime + usage.ru_stime


def demo(extra="", name=DEMO):
    path = SCENARIOS / f"{name}.toml"
    loaded = load_scenario(f"{path.read_text()}\n{extra}", path)
    return loaded.season, load_rules(loaded.scenario.rules, loaded.season)


def explain(demo_name=DEMO):
    clashes, repairs = [], []
    for name, extra in CAUSES.items():
        season, rules = demo(extra, demo_name)

        def clash(season=season, rules=rules):
            argument = Argument(season, rules, Clock(3.0))
            return argument, argue(argument)

        (argument, finding), wall, work = wall_and_work(clash)
        clashes.append(wall)
        argument.clock = argument.oracle.clock = Clock(30.0)
        found, repair_wall, repair_work = wall_and_work(
            lambda argument=argument, finding=finding: list(Repairs(argument, finding.keys).find(3))
        )
        repairs.append(repair_wall)
        size = len(finding.clashes[0].demands) if finding.clashes else 0
        print(
            f"{name:<26} {len(argument.demands)} demands: {finding.verdict}, {size} in the clash, "
            f"{wall:.2f} s ({work:.2f} s of work); {len(found)} repairs {repair_wall:.2f} s "
            f"({repair_work:.2f} s), proven {[each.cheapest for each in found]}",
            flush=True,
        )
    print(f"clash: median {statistics.median(clashes):.2f} s, most {max(clashes):.2f} s")
    print(f"three repairs: median {statistics.median(repairs):.2f} s, most {max(repairs):.2f} s")


def why(season, rules, plan):
    settings = Settings(seconds=30.0, quick=True)
    for rung in range(5):
        asked = Asked(week=22, quality="sprint", rung=rung)
        answer, wall, work = wall_and_work(
            lambda asked=asked: why_not(season, rules, plan, asked, settings)
        )
        told = "forbidden" if isinstance(answer, Forbidden) else "costs"
        print(f"why not {asked.says(season)}: {told} in {wall:.2f} s ({work:.2f} s of work)")


def main():
    """Measure everything on one demo season."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--prices", action="store_true", help="price all rules too")
    parser.add_argument("--season", default=DEMO, help="a demo season's name")
    asked = parser.parse_args()
    explain(asked.season)
    season, rules = demo(name=asked.season)
    plan = solve_season(season, rules, Settings(quick=True)).plan
    why(season, rules, plan)
    if asked.prices:
        short = Settings(quick=True)
        _, wall, _ = wall_and_work(lambda: price_rules(season, rules, plan, short))
        print(f"prices of {len(rules)} rules: {wall:.1f} s")


if __name__ == "__main__":
    main()
