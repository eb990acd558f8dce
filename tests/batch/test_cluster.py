"""A batch on a real scheduler with two workers, started here."""

import json
import os
import subprocess
import sys
import time
from concurrent.futures import Future
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from types import SimpleNamespace
from unittest.mock import patch

import pytest
from batch_cases import NO_SESSIONS, small_case, small_season
from batch_solvers import grief, where
from click.testing import CliRunner

from cli.commands.batch import batch_command
from constraints.load import load_rules
from optimiser.batch.cluster import Watched, connect
from optimiser.batch.engine import Crew, run_jobs
from optimiser.batch.job import do_job, job_of
from optimiser.batch.run import run_batch
from optimiser.domain.setup_error import SetupError

distributed = pytest.importorskip("distributed", reason="needs seasonwright[cluster]")

ROOT = Path(__file__).parents[2]
# Dask leaves sockets and loops to the garbage collector.
pytestmark = [
    pytest.mark.filterwarnings("default::ResourceWarning"),
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
]


@pytest.fixture(scope="module")
def cluster(tmp_path_factory):
    """Yield the address of a scheduler with two workers of one thread each."""
    with running(tmp_path_factory.mktemp("cluster"), 2) as (address, client, _):
        yield address, client


@contextmanager
def running(folder, workers):
    scheduler = started(folder, "scheduler", "--port", "0")
    address = waited_for(folder / "scheduler.json", scheduler)
    words = ("--nworkers", str(workers), "--nthreads", "1", "--death-timeout", "120")
    helpers = started(folder, "worker", *words)
    try:
        # a busy machine may take a minute to start a worker
        with patch("optimiser.batch.cluster.PATIENCE", 120):
            client = connect(address)
        client.wait_for_workers(workers, timeout=120)
        yield address, client, scheduler
        client.close()
    finally:
        for process in (helpers, scheduler):
            ended(process)


def started(folder, kind, *words):
    paths = os.pathsep.join([str(ROOT), str(Path(__file__).parent)])
    return subprocess.Popen(
        [
            sys.executable, "-m", f"distributed.cli.dask_{kind}", "--host", "127.0.0.1",
            "--no-dashboard", "--scheduler-file", str(folder / "scheduler.json"), *words,
        ],
        cwd=folder,
        env={
            **os.environ,
            "PYTHONPATH": paths,
            "DASK_DISTRIBUTED__SCHEDULER__ALLOWED_FAILURES": "0",
        },
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )  # fmt: skip


def waited_for(path, process):
    for _ in range(600):
        if path.exists() and path.read_text().strip():
            return json.loads(path.read_text())["address"]
        assert process.poll() is None, "the scheduler did not start"
        time.sleep(0.1)
    raise AssertionError("the scheduler wrote no address")


def ended(process):
    process.terminate()
    try:
        process.wait(20)
    except subprocess.TimeoutExpired:
        process.kill()
        process.wait()


def cases_of(*names):
    return [small_case(name, seed=number) for number, name in enumerate(names)]


def test_the_cluster_gives_the_rows_that_this_machine_gives(cluster):
    loose = {"load_ramp": {"percent": 40}}
    cases = [
        small_case("A"),
        small_case("A", tables=loose, rules="loose"),
        small_case("A", tables=NO_SESSIONS, rules="none"),
        small_case("B", season=small_season("B", low=2)),
    ]

    there = run_batch(cases, Crew(client=cluster[1]), load_rules)
    here = run_batch(cases, Crew(2), load_rules)

    names = ("season", "rules", "status", "match", "plan", "key")
    found = [{(row.season, row.rules): row for row in rows} for rows in (there, here)]
    assert len(found[0]) == 4
    for case, row in found[0].items():
        assert [getattr(row, name) for name in names] == [
            getattr(found[1][case], name) for name in names
        ]


def test_the_work_is_done_by_the_workers(cluster):
    act = partial(do_job, load=load_rules, solver=where)
    jobs = [job_of(case) for case in cases_of(*"abcdef")]

    found = [result.why_not for _, result in run_jobs(jobs, act, Crew(client=cluster[1]))]

    assert len(found) == 6
    pids = set(cluster[1].run(os.getpid).values())
    assert {said.removeprefix("RuntimeError: pid ") for said in found} <= set(map(str, pids))


def test_a_worker_that_dies_costs_its_own_row_only(cluster):
    cases = cases_of("a", "kill", "memory", "b")
    act = partial(do_job, load=load_rules, solver=grief)
    crew = Crew(client=cluster[1])

    found = dict(run_jobs([job_of(case) for case in cases], act, crew))

    names = {case.season: found[case.key].status for case in cases}
    assert (names.pop("kill"), names.pop("memory")) == ("killed", "out_of_memory")
    assert set(names) == {"a", "b"}
    assert set(names.values()) <= {"proven", "within_gap"}


def test_the_command_takes_the_address(cluster, tmp_path):
    path = tmp_path / "club.toml"
    path.write_text(
        'name = "Club"\nfirst_monday = 2026-07-06\nweeks = 8\n[[fixtures]]\ndate = 2026-08-29\n'
    )

    told = CliRunner().invoke(batch_command, [str(path), "--scheduler", cluster[0]])

    assert told.exit_code == 0, told.output
    assert "1 rows of 1 solves, 1 with a plan" in told.stdout


def test_a_scheduler_that_goes_away_is_told(tmp_path):
    act = partial(do_job, load=load_rules, solver=where)
    jobs = [job_of(case) for case in cases_of(*"abcdefghij")]

    with running(tmp_path, 1) as (_, client, scheduler):
        found = run_jobs(jobs, act, Crew(client=client))
        next(found)
        scheduler.kill()
        with pytest.raises(SetupError, match=r"must stay up.*--resume"):
            list(found)


def test_what_is_handed_over_as_the_client_closes_is_told_lost(monkeypatch):
    monkeypatch.setattr("optimiser.batch.cluster.PAUSE", 0.01)
    client = SimpleNamespace(status="running")
    watched, done, lost = Watched(client), Future(), Future()
    for each in (done, lost):
        watched.add(each)
    watched.start()
    done.set_result("kept")

    client.status = "closed"

    assert isinstance(lost.exception(timeout=10), ConnectionError)
    assert done.result() == "kept"
    watched.over.set()


def test_a_scheduler_that_does_not_answer_is_told(monkeypatch):
    monkeypatch.setattr("optimiser.batch.cluster.PATIENCE", 1)

    with pytest.raises(SetupError, match="must be the address of a Dask scheduler"):
        connect("tcp://127.0.0.1:1")


def test_without_the_libraries_it_says_what_to_install(monkeypatch):
    monkeypatch.setitem(sys.modules, "distributed", None)

    with pytest.raises(SetupError, match=r"seasonwright\[cluster\]"):
        connect("tcp://127.0.0.1:8786")
