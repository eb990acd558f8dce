import os
import queue
import time

import pytest

from cli.serve.solver import Solver
from cli.serve.worker import Job
from optimiser.together.settings import Settings


@pytest.fixture
def results():
    return queue.Queue()


@pytest.fixture
def solver(results):
    made = Solver(results.put)
    yield made
    made.close()


def alive(pid):
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    return True


def job(minimal, usual_rules, old=None):
    return Job(minimal.season, tuple(usual_rules), Settings(quick=True), old)


def test_a_new_search_ends_the_one_that_runs(solver, results, minimal, usual_rules, plain_plan):
    solver.start(job(minimal, usual_rules))
    first = solver.running
    solver.start(job(minimal, usual_rules, plain_plan(minimal.season)))
    second = solver.running
    done = results.get(timeout=90)

    assert not alive(first)
    assert first != second
    assert done.status == "planned"
    time.sleep(0.3)
    assert results.empty()


def test_a_stopped_search_reports_nothing_and_leaves_no_process(
    solver, results, minimal, usual_rules
):
    solver.start(job(minimal, usual_rules))
    pid = solver.running
    solver.stop()

    assert not alive(pid)
    assert solver.progress() is None
    time.sleep(0.3)
    assert results.empty()


def test_a_process_that_dies_by_itself_found_nothing(solver, results, minimal, usual_rules):
    solver.start(job(minimal, usual_rules))
    os.kill(solver.running, 9)

    assert results.get(timeout=90).status == "out_of_time"
    assert solver.running is None


def test_the_process_of_a_finished_search_is_used_again(solver, results, minimal, usual_rules):
    pids = []
    for _ in range(3):
        solver.start(job(minimal, usual_rules))
        pids.append(solver.running)
        assert results.get(timeout=90).plan is not None

    assert len(set(pids)) <= 2
