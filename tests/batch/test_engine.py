import os
from functools import partial

import pytest
from batch_cases import small_case
from batch_solvers import grief, where

from constraints.load import load_rules
from optimiser.batch.engine import Crew, run_jobs
from optimiser.batch.job import do_job, job_of


def run(cases, crew, solver):
    act = partial(do_job, load=load_rules, solver=solver)
    return list(run_jobs([job_of(case) for case in cases], act, crew))


def numbered(*names):
    return [small_case(name, seed=number) for number, name in enumerate(names)]


def test_every_job_comes_back_once():
    cases = numbered("a", "b", "c", "d", "e")

    found = run(cases, Crew(2), grief)

    assert sorted(key for key, _ in found) == sorted(case.key for case in cases)
    assert {result.status for _, result in found} <= {"proven", "within_gap"}


@pytest.mark.parametrize("jobs", [1, 2])
def test_a_killed_process_costs_its_own_row_only(jobs):
    cases = numbered("a", "kill", "memory", "b", "c")

    found = dict(run(cases, Crew(jobs), grief))

    names = {case.season: found[case.key].status for case in cases}
    assert names.pop("kill") == "killed"
    assert names.pop("memory") == "out_of_memory"
    assert set(names) == {"a", "b", "c"}
    assert set(names.values()) <= {"proven", "within_gap"}


def test_even_one_process_is_not_this_one():
    ((_, result),) = run(numbered("a"), Crew(1), where)

    assert result.why_not != f"RuntimeError: pid {os.getpid()}"
    assert result.why_not.startswith("RuntimeError: pid")


def test_no_jobs_need_no_process():
    assert run([], Crew(2), grief) == []
