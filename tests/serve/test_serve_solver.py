import os
import queue
import time
from pathlib import Path
from types import SimpleNamespace

import pytest

from cli.render.proof import proof
from cli.serve.finding import PlanJob
from cli.serve.jobs import Failed, Sooner
from cli.serve.solver import JobRunner
from optimiser.change.near import Near
from optimiser.joint_model.effort import Settings
from optimiser.review.describe import season_part


@pytest.fixture(scope="module")
def results():
    return queue.Queue()


@pytest.fixture(scope="module")
def solver(results):
    made = JobRunner(lambda found, final: results.put(found) if final else None)
    yield made
    made.close()


def alive(pid):
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    return True


def job(minimal, usual_rules):
    return PlanJob(minimal.season, tuple(usual_rules), Settings(quick=True))


class Quick:
    """A job that is done at once."""

    def run(self, tell):
        return "done"


class Wrong:
    """A job with a mistake in it."""

    def run(self, tell):
        raise ZeroDivisionError


def test_a_new_job_ends_the_one_that_runs_and_leaves_no_process(
    solver, results, minimal, usual_rules
):
    solver.start(job(minimal, usual_rules))
    first = solver.running
    solver.start(Quick())

    assert results.get(timeout=90) == "done"
    assert not alive(first)
    assert solver.progress() is None
    time.sleep(0.1)
    assert results.empty()


def test_a_process_that_dies_by_itself_is_told(solver, results, minimal, usual_rules):
    solver.start(job(minimal, usual_rules))
    os.kill(solver.running, 9)

    assert isinstance(results.get(timeout=90), Failed)
    assert solver.running is None


def test_a_spare_process_that_has_died_is_passed_over(solver, results):
    for pid in solver.spare:
        os.kill(pid, 9)
        while not _gone(pid):
            time.sleep(0.01)
    solver.start(Quick())

    assert results.get(timeout=90) == "done"


def _gone(pid):
    """Tell whether a killed process and all its threads have ended."""
    tasks = Path(f"/proc/{pid}/task")
    stat = Path(f"/proc/{pid}/stat").read_text(encoding="ascii", errors="replace")
    return len(list(tasks.iterdir())) <= 1 and stat.rsplit(")", 1)[1].split()[0] == "Z"


def test_a_job_with_a_mistake_in_it_ends_with_a_word_and_its_process_is_used_again(solver, results):
    solver.start(Wrong())
    found = results.get(timeout=90)
    solver.start(Quick())

    assert isinstance(found, Failed)
    assert "ZeroDivisionError" in found.words
    assert results.get(timeout=90) == "done"


@pytest.mark.parametrize(("gap", "shown"), [(0.5, False), (0.2, True)])
def test_a_poor_plan_found_soon_is_not_set_against_the_one_that_stands(
    minimal, usual_rules, plain_plan, monkeypatch, gap, shown
):
    old = plain_plan(minimal.season)

    def near(*_, better, **__):
        better(old, SimpleNamespace(gap=gap, bound=1.0))
        return Near("planned", old, SimpleNamespace(gap=0.01), 1.0)

    monkeypatch.setattr("cli.serve.finding.solve_near", near)
    told = []
    PlanJob(minimal.season, tuple(usual_rules), Settings(), old).run(told.append)

    assert any(isinstance(news, Sooner) for news in told) is shown


def test_a_plan_that_changes_leave_legal_is_shown_at_once_and_said_not_to_be_bounded(
    minimal, plain_plan, monkeypatch
):
    old = plain_plan(minimal.season)

    def near(*_, **__):
        raise ZeroDivisionError

    monkeypatch.setattr("cli.serve.finding.solve_near", near)
    told = []
    with pytest.raises(ZeroDivisionError):
        PlanJob(minimal.season, (), Settings(), old).run(told.append)

    (news,) = told
    assert news.found.plan == old
    assert news.found.provisional
    assert proof(season_part(news.found.verdict)) == "not bounded"
