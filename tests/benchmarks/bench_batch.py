"""How fast batches are: run it by hand on a quiet machine, it asserts nothing.

    python tests/benchmarks/bench_batch.py --seasons 12 [--cluster]

Wanted: 600 seasons of 52 weeks an hour on 2 cores, 2 processes at least 1.7 times as fast as
one, under 400 MB a process, 1,000 rows shown in under 1 s, a cluster at most 10 % slower than
processes of this machine.
"""

import argparse
import datetime as dt
import json
import resource
import subprocess
import sys
import tempfile
import time
from functools import partial
from pathlib import Path

from cli.render.batch_table import batch_text
from constraints.load import load_rules
from optimiser.batch.case import Case, make_case
from optimiser.batch.engine import Crew, run_jobs
from optimiser.batch.job import do_job, job_of
from optimiser.batch.row import BatchRow
from optimiser.batch.rule_sets import compare_rule_sets
from optimiser.batch.run import run_batch
from optimiser.domain.scenario import Scenario
from optimiser.league.league import make_league
from optimiser.league.settings import Closeness, LeagueSettings
from optimiser.setup.build import build_season

START = dt.date(2026, 6, 15)
CONGESTION = list(Closeness)


def seasons(count):
    """Return cases of ``count`` clubs of several leagues, from calm to crowded."""
    cases = []
    for seed in range(count):
        made = LeagueSettings(
            clubs=14, start=START, seed=seed, congestion=CONGESTION[seed % len(CONGESTION)]
        )
        club = make_league(made)[0]
        scenario = Scenario(
            name=f"{club.club.name} {seed}", first_monday=START, weeks=52, breaks=club.breaks
        )
        season = build_season(scenario, club.fixtures)
        cases.append(make_case(season, load_rules({}), {}, rules_name="as written", file=str(seed)))
    return cases


def memory(season, rules, *, seed, start, decided):
    """Tell, as an error, the most memory this process ever held, in kB."""
    raise (
        MemoryError
        if sys.platform == "win32"
        else RuntimeError(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)
    )


def timed(cases: list[Case], crew: Crew):
    """Return seconds, and the rows."""
    began = time.perf_counter()
    rows = list(run_batch(cases, crew, load_rules))
    return time.perf_counter() - began, rows


def most_memory(cases: list[Case], crew: Crew):
    """Return the most memory of a worker that is still there, in MB."""
    act = partial(do_job, load=load_rules, solver=memory)
    told = [found.why_not for _, found in run_jobs(map(job_of, cases[:4]), act, crew)]
    return max(int(words.rpartition(" ")[2]) for words in told) / 1024


def show(what, value, wanted):
    """Print one line."""
    print(f"{what:<44} {value:>10}   wanted {wanted}", flush=True)


def table():
    """Time the table of a thousand rows."""
    rows = [
        BatchRow(
            season=f"Season {at // 2}", file=str(at // 2), rules=("as written", "loose")[at % 2],
            status="proven", match=80 + at % 17, at_high=90, gap=0.0, peak_load=2000, seconds=9.0,
        )
        for at in range(1000)
    ]  # fmt: skip
    began = time.perf_counter()
    batch_text(rows, compare_rule_sets(rows, "as written"))
    show("1,000 rows shown, s", f"{time.perf_counter() - began:.2f}", "under 1")


def cluster(cases: list[Case], alone: float):
    """Time the same cases on a scheduler with two workers of this machine."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "scheduler.json"
        words = [sys.executable, "-m", "distributed.cli.dask_{}", "--no-dashboard"]
        words += ["--scheduler-file", str(file)]
        both = []
        for kind, more in (
            ("scheduler", ["--port", "0", "--host", "127.0.0.1"]),
            ("worker", ["--nworkers", "2", "--nthreads", "1", "--death-timeout", "60"]),
        ):
            command = [word.format(kind) for word in words] + more
            both.append(subprocess.Popen(command, stderr=subprocess.DEVNULL))
            while not file.exists():
                time.sleep(0.1)
        try:
            crew = Crew.at(2, json.loads(file.read_text())["address"])
            crew.client.wait_for_workers(2, timeout=60)
            timed(cases[:2], crew)
            there, _ = timed(cases, crew)
            crew.close()
        finally:
            for process in reversed(both):
                process.kill()
    show("cluster against processes here, ratio", f"{there / alone:.2f}", "at most 1.10")


def main():
    """Print every figure."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--seasons", type=int, default=12)
    parser.add_argument("--cluster", action="store_true")
    asked = parser.parse_args()
    table()
    cases = seasons(asked.seasons)
    one, rows = timed(cases, Crew(1))
    two, _ = timed(cases, Crew(2))
    show("seasons an hour, 2 processes", f"{3600 * len(cases) / two:.0f}", "600")
    show("2 processes against 1, ratio", f"{one / two:.2f}", "at least 1.70")
    show("memory of a process, MB", f"{most_memory(cases, Crew(2)):.0f}", "under 400")
    status = {row.status for row in rows}
    counts = {name: sum(row.status == name for row in rows) for name in sorted(status)}
    gaps = sorted(row.gap for row in rows if row.gap is not None)
    print(f"ended: {counts}; median gap {100 * gaps[len(gaps) // 2]:.2f} %" if gaps else counts)
    if asked.cluster:
        cluster(cases, two)


if __name__ == "__main__":
    main()
