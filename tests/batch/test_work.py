import pytest
from batch_cases import NO_SESSIONS, small_case, small_season
from batch_solvers import grief, repeat_start

from constraints.load import load_rules
from optimiser.batch.job import do_job, job_of
from optimiser.batch.row import Result
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import solve_season
from optimiser.review.audit import audit_plan


def done(case, solver=None, start=None):
    key, said = do_job(job_of(case, start), load_rules, solver)
    assert key == case.key
    return Result.model_validate_json(said)


def test_a_worker_gives_the_plan_that_solving_here_gives():
    found = done(small_case())

    here = solve_season(small_season(), load_rules({}), Settings(workers=1))
    assert found.status in ("proven", "within_gap")
    assert found.plan == here.plan
    assert found.gap == round(here.verdict.gap, 6)


def test_the_plan_of_a_row_keeps_its_rules():
    found = done(small_case(tables={"load_ramp": {"percent": 5}}))

    assert audit_plan(small_season(), found.plan, load_rules({"load_ramp": {"percent": 5}})) == []


def test_a_clash_is_told_in_words():
    found = done(small_case(tables=NO_SESSIONS))

    assert (found.status, found.plan, found.match) == ("clash", None, None)
    assert "session_caps" in found.why_not


@pytest.mark.parametrize(
    ("name", "status", "said"),
    [
        ("memory", "out_of_memory", "more memory"),
        ("error", "failed", "RuntimeError: the board is on fire"),
        ("late", "out_of_time", "may be one"),
    ],
)
def test_trouble_becomes_a_row_and_never_a_clash(name, status, said):
    found = done(small_case(name), grief)

    assert found.status == status
    assert said in found.why_not


def test_rules_that_cannot_be_loaded_become_a_row():
    job = job_of(small_case())
    broken = type(job)(job.key, job.season, '{"load_ramp": {"percent": -1}}', 0)

    _, said = do_job(broken, load_rules)

    assert Result.model_validate_json(said).status == "failed"


def test_a_start_is_used_only_if_it_keeps_the_rules():
    start = solve_season(small_season(), load_rules({})).plan
    loose = small_case(tables={"load_ramp": {"percent": 60}})

    assert done(loose, repeat_start, start).seconds == 60.0
    assert done(small_case(tables=NO_SESSIONS), repeat_start, start).status == "clash"
