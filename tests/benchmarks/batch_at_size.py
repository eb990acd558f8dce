"""Ten thousand seasons on a cluster of two workers that are killed: is anything lost, or twice?

``python -m tests.benchmarks.batch_at_size --seasons 10000 --work FOLDER`` starts a Dask scheduler
and two workers of this machine and plans made-up seasons by `seasonwright batch`. On the way it
kills workers, the batch itself, which is resumed, and once the scheduler, each by SIGKILL and each
with a look whether the kill landed. Prints what ``docs/results/batch.md`` holds.
"""

import argparse
import csv
import json
import os
import signal
import subprocess
import sys
import time
from collections import Counter
from contextlib import suppress
from pathlib import Path
from random import Random
from statistics import mean
from typing import Any, NamedTuple

import psutil

from optimiser.batch.cluster import connect
from tests.benchmarks.batch_seasons import write_seasons

ROOT = Path(__file__).parents[2]
PAUSE, SAMPLE, PATIENCE = 1.0, 20.0, 90.0
AGAIN = 100


class Kill(NamedTuple):
    """One SIGKILL: whom, after how many rows, and what it had in hand."""

    who: str
    rows: int
    in_hand: int


class Cluster:
    """A scheduler and two workers of one thread each, with nannies, as people start them."""

    def __init__(self, folder: Path) -> None:
        self._file = folder / "scheduler.json"
        self._file.unlink(missing_ok=True)
        self.scheduler = self._begin("scheduler", "--port", "0")
        self.address = self._address()
        self.helpers = self._begin("worker", "--nworkers", "2", "--nthreads", "1")
        self.client = connect(self.address)
        self.client.wait_for_workers(2, timeout=PATIENCE)

    def workers(self) -> list[psutil.Process]:
        """Return the processes that plan; their nannies start a new one for one that died."""
        found = []
        with suppress(psutil.NoSuchProcess):
            for each in psutil.Process(self.helpers.pid).children(recursive=True):
                with suppress(psutil.NoSuchProcess):
                    found += [each] if "spawn_main" in " ".join(each.cmdline()) else []
        return found

    def kill_worker(self, rng: Random, rows: int) -> Kill:
        """Kill one of them and see that it is gone."""
        pids = self.client.run(os.getpid)
        victim = rng.choice(sorted(pids))
        in_hand = len(self.client.processing().get(victim, ()))
        killed(pids[victim])
        return Kill("worker", rows, in_hand)

    def end(self) -> None:
        """Let go of it all."""
        with suppress(Exception):
            self.client.close()
        for process in (self.helpers, self.scheduler):
            process.terminate()
            try:
                process.wait(30)
            except subprocess.TimeoutExpired:
                process.kill()

    def _begin(self, kind: str, *words: str) -> "subprocess.Popen[bytes]":
        command = [sys.executable, "-m", f"distributed.cli.dask_{kind}", "--host", "127.0.0.1"]
        command += ["--no-dashboard", "--scheduler-file", str(self._file), *words]
        quiet = subprocess.DEVNULL
        return subprocess.Popen(command, cwd=ROOT, env=ENV, stdout=quiet, stderr=quiet)

    def _address(self) -> str:
        for _ in range(600):
            if self._file.exists() and self._file.read_text().strip():
                return str(json.loads(self._file.read_text())["address"])
            time.sleep(0.1)
        raise TimeoutError("the scheduler wrote no address")


ENV = {**os.environ, "PYTHONPATH": str(ROOT)}


def killed(pid: int) -> None:
    """Kill a process and wait until nothing but its name in the table is left."""
    os.kill(pid, signal.SIGKILL)
    until = time.monotonic() + PATIENCE
    while time.monotonic() < until:
        try:
            if psutil.Process(pid).status() == psutil.STATUS_ZOMBIE:
                return
        except psutil.NoSuchProcess:
            return
        time.sleep(0.01)
    raise TimeoutError(f"process {pid} lives on")


class Rows:
    """The rows on disk, counted as they come."""

    def __init__(self, path: Path) -> None:
        self._path, self._at, self.count = path, 0, 0

    def look(self) -> int:
        """Return how many there are."""
        if self._path.exists():
            with self._path.open("rb") as file:
                file.seek(self._at)
                new = file.read()
            self._at += len(new)
            self.count += new.count(b"\n")
        return self.count


class Run:
    """One batch, from its first start to its end."""

    def __init__(self, work: Path, seasons: int) -> None:
        self.work, self.seasons, self.rng = work, seasons, Random(seasons)
        self.out = work / "results.csv"
        self.log = work / "results.rows.jsonl"
        self.kills: list[Kill] = []
        self.samples: list[tuple[float, int, str, int, float]] = []
        self.starts: list[tuple[float, float]] = []
        self.began, self._sampled = time.monotonic(), 0.0

    def go(self) -> None:
        """Start it again and again until it ends by itself."""
        steps = [round(self.seasons * share) for share in (0.2, 0.45, 0.7)]
        cluster = Cluster(self.work)
        try:
            for number, stop in enumerate([*steps, None]):
                last = number == len(steps) - 1
                batch = self._start(cluster, resume=number > 0)
                self._watch(cluster, batch, stop)
                if stop is None:
                    continue
                if last:
                    cluster = self._scheduler_killed(cluster, batch)
                else:
                    killed(batch.pid)
                    assert batch.wait(PATIENCE) == -signal.SIGKILL
                    self.kills.append(Kill("batch", self._count(), 2))
        finally:
            cluster.end()

    def _start(self, cluster: Cluster, *, resume: bool) -> "subprocess.Popen[bytes]":
        words = ["batch", str(self.work / "seasons"), "--scheduler", cluster.address]
        words += ["--out", str(self.out), "--format", "csv", *(["--resume"] if resume else [])]
        with (self.work / "batch.log").open("ab") as log:
            return subprocess.Popen(
                [sys.executable, "-m", "cli", *words],
                cwd=ROOT, env=ENV, stdout=subprocess.DEVNULL, stderr=log,
            )  # fmt: skip

    def _watch(self, cluster: Cluster, batch: "subprocess.Popen[bytes]", stop: int | None) -> None:
        """Look on, and kill a worker twenty times on the way, until ``stop`` rows are there."""
        rows, began = Rows(self.log), time.monotonic()
        before = self._count()
        every = max(1, self.seasons // 20)
        due = before + every // 2
        first = 0.0
        while batch.poll() is None:
            now = rows.look()
            if now > before and not first:
                first = time.monotonic() - began
                self.starts.append((before, first))
            self._sample(cluster, batch, now)
            if stop is not None and now >= stop:
                return
            if now >= due:
                self.kills.append(cluster.kill_worker(self.rng, now))
                due += every
            time.sleep(PAUSE)
        assert stop is None, f"the batch ended by itself with {batch.returncode}"
        assert batch.returncode == 0, f"the batch ended with {batch.returncode}"

    def _scheduler_killed(self, cluster: Cluster, batch: "subprocess.Popen[bytes]") -> Cluster:
        """Kill the scheduler; the batch must end in a line that says how to go on."""
        killed(cluster.scheduler.pid)
        code = batch.wait(10 * PATIENCE)
        self.kills.append(Kill(f"scheduler, batch ended with {code}", self._count(), 2))
        cluster.end()
        return Cluster(self.work)

    def _count(self) -> int:
        return Rows(self.log).look()

    def _sample(self, cluster: Cluster, batch: "subprocess.Popen[bytes]", rows: int) -> None:
        if time.monotonic() - self._sampled < SAMPLE:
            return
        self._sampled = time.monotonic()
        named = [("worker", each) for each in cluster.workers()]
        named += [("batch", psutil.Process(batch.pid))]
        named += [("scheduler", psutil.Process(cluster.scheduler.pid))]
        with (self.work / "memory.csv").open("a", encoding="ascii") as file:
            for who, process in named:
                with suppress(psutil.NoSuchProcess):
                    size = process.memory_info().rss / 1e6
                    at = self._sampled - self.began
                    self.samples.append((at, rows, who, process.pid, size))
                    print(f"{at:.0f},{rows},{who},{process.pid},{size:.0f}", file=file)


def told(run: Run, seconds: float) -> None:
    """Print what came of it."""
    lines = [json.loads(line) for line in run.log.read_text(encoding="utf-8").splitlines()]
    table = _table(run)
    shown, solved = (Counter(row["file"] for row in rows) for rows in (table, lines))
    print(f"{run.seasons} seasons, {len(table)} rows in the table, {len(lines)} on the way")
    print(f"not there: {run.seasons - len(shown)}; in the table twice: {_twice(shown)};", end=" ")
    print(f"solved twice: {_twice(solved)}")
    print(f"status: {dict(Counter(row['status'] for row in table))}")
    print(f"seconds a season: {_tail([float(row['seconds']) for row in table])}")
    print(f"in all {seconds:.0f} s: {3600 * len(table) / seconds:.0f} seasons an hour")
    print(f"from a start to its first new row, rows known and seconds: {run.starts}")
    for kill in run.kills:
        print(f"killed {kill.who} after {kill.rows} rows, {kill.in_hand} seasons in hand")
    _memory(run.samples)


def _table(run: Run) -> list[dict[str, Any]]:
    with run.out.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _twice(counts: Counter[str]) -> int:
    return sum(number > 1 for number in counts.values())


def _tail(seconds: list[float]) -> str:
    took, last = sorted(seconds), len(seconds) - 1
    shares = {"median": 0.5, "95 %": 0.95, "99 %": 0.99, "99.9 %": 0.999, "most": 1.0}
    told = [f"{name} {took[int(share * last)]:.2f}" for name, share in shares.items()]
    return ", ".join([f"mean {mean(took):.2f}", *told])


def _memory(samples: list[tuple[float, int, str, int, float]]) -> None:
    for who in ("worker", "batch", "scheduler"):
        mine = [(at, rows, pid, size) for at, rows, name, pid, size in samples if name == who]
        most = max(size for *_, size in mine)
        tenths = [
            mean(part)
            for tenth in range(10)
            if (part := [size for at, *_, size in mine if int(10 * at / samples[-1][0]) == tenth])
        ]
        print(f"memory of {who}: most {most:.0f} MB; by tenth of the time", end=" ")
        print([round(size) for size in tenths])


def again(run: Run) -> None:
    """Plan some of them anew in one process, without kills: the same rows?"""
    there = sorted(map(str, (run.work / "seasons").glob("*.toml")))
    files = run.rng.sample(there, min(AGAIN, len(there)))
    command = [sys.executable, "-m", "cli", "batch", *files, "--jobs", "1", "--format", "csv"]
    said = subprocess.run(command, cwd=ROOT, env=ENV, capture_output=True, text=True, check=True)
    before = {row["file"]: _bare(row) for row in _table(run)}
    fresh = [_bare(row) for row in csv.DictReader(said.stdout.splitlines())]
    other = [row["file"] for row in fresh if before[row["file"]] != row]
    print(f"{len(fresh)} of them again in one process: {len(other)} differ {other[:5]}")


def _bare(row: dict[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in row.items() if name != "seconds"}


def main() -> None:
    """Run it and print what came of it."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.batch_at_size")
    parser.add_argument("--seasons", type=int, default=10_000)
    parser.add_argument("--work", type=Path, required=True)
    asked = parser.parse_args()
    write_seasons(asked.work / "seasons", asked.seasons)
    run = Run(asked.work, asked.seasons)
    run.go()
    told(run, time.monotonic() - run.began)
    again(run)


if __name__ == "__main__":
    main()
