"""How fast what-ifs, re-planning, drawn futures and shared plans are: run by hand, asserts nothing.

    python tests/benchmarks/bench_whatif.py [--draws 200] [SCENARIO]

Wanted for a season of 52 weeks on 2 quiet cores: a what-if with a saved plan at most 6 s, the
trade-off of a replan at most 20 s, 200 drawn futures at most 10 min, three futures in one shared
plan within a gap of 5 % in 60 s.
"""

import argparse
import datetime as dt
import subprocess
import sys
import tempfile
import time
from pathlib import Path

SCENARIOS = Path(__file__).parents[2] / "scenarios"


def timed(name, *arguments):
    """Run one command and say how long it took."""
    began = time.perf_counter()
    done = subprocess.run(
        [sys.executable, "-m", "cli", *map(str, arguments)],
        capture_output=True,
        text=True,
        check=False,
    )
    print(f"{name:40} {time.perf_counter() - began:6.1f} s  exit {done.returncode}", flush=True)
    return done.stdout


def busy_day(scenario):
    """Return a Saturday match in mid-season and the Wednesday after it."""
    from cli.files.scenario_file import read_scenario

    fixtures = read_scenario(scenario).season.fixtures
    days = {fixture.date for fixture in fixtures}
    middle = [f.date for f in fixtures][len(fixtures) // 2 :]
    day = next(d for d in middle if d + dt.timedelta(days=4) not in days)
    return day, day + dt.timedelta(days=4)


def main():
    """Time each of them once."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("scenario", nargs="?", default=SCENARIOS / "rugby_long_season.toml")
    parser.add_argument("--draws", type=int, default=200)
    asked = parser.parse_args()
    day, other = busy_day(Path(asked.scenario))
    with tempfile.TemporaryDirectory() as folder:
        plan = Path(folder) / "plan.json"
        timed("plan", "plan", asked.scenario, "--out", plan)
        move = ("--move", f"{day}={other}")
        timed("what-if, plan saved", "whatif", asked.scenario, "--base", plan, *move)
        timed("replan from week 20", "replan", asked.scenario, plan, "--week", 20, *move)
        if asked.scenario == SCENARIOS / "rugby_long_season.toml":
            three = SCENARIOS / "changes" / "rugby_cup_futures.toml"
            timed("three futures, one plan", "plan", asked.scenario, "--futures", three)
        told = timed(
            f"{asked.futures} drawn futures",
            "whatif", asked.scenario, "--congest", "--draws", asked.draws,
        )  # fmt: skip
        print(told)


if __name__ == "__main__":
    main()
