"""Many changed seasons planned side by side, each near one plan, each that differs once."""

import json
import time
from collections.abc import Iterator, Sequence
from functools import partial

from optimiser.batch.case import Case
from optimiser.batch.engine import Crew, run_jobs
from optimiser.batch.job import Job, Load, decided_of, job_of
from optimiser.batch.row import Result
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season


def plan_many(
    cases: Sequence[Case], base: Plan, crew: Crew, load: Load
) -> Iterator[tuple[str, Result]]:
    """Plan each case near ``base`` and yield its key and result as it comes.

    Parameters
    ----------
    load
        Makes rules of their tables; it is sent to the workers by name.
    """
    distinct = {case.key: case for case in cases}
    act = partial(work_near, load=load)
    return run_jobs((job_of(case, base) for case in distinct.values()), act, crew)


def work_near(job: Job, load: Load) -> tuple[str, str]:
    """Plan one season near the plan the job starts from; return its key and result as JSON.

    Whatever goes wrong inside becomes the result, so that it costs this season and no other.
    """
    began = time.perf_counter()
    try:
        result = _planned(job, load)
    except Exception as error:  # the others go on whatever this one does
        words = f"{type(error).__name__}: {error}"[:500]
        result = Result(status="failed", why_not=words, seconds=time.perf_counter() - began)
    return job.key, result.model_dump_json()


def _planned(job: Job, load: Load) -> Result:
    from optimiser.change.near import solve_near  # the solvers are loaded in the workers alone
    from optimiser.joint_model.effort import Settings

    season = Season.model_validate_json(job.season)
    rules = load(json.loads(job.rules))
    old = Plan.model_validate_json(job.start or "")
    settings = Settings(seed=job.seed, quick=True, workers=1)
    near = solve_near(season, rules, old, settings, decided_of(job))
    if near.plan is None or near.verdict is None:
        status = "clash" if near.status == "clash" else "out_of_time"
        return Result(status=status, seconds=near.seconds)
    status, gap = near.verdict.status, near.verdict.gap
    return Result(status=status, gap=gap, seconds=near.seconds, plan=near.plan)
