"""Jobs on several processes, here or on a cluster; a dead process costs one job."""

import asyncio
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import CancelledError
from concurrent.futures.process import BrokenProcessPool
from contextlib import AbstractContextManager
from dataclasses import dataclass
from functools import partial
from itertools import islice
from typing import Any

from joblib import Parallel, delayed, parallel_config

from optimiser.batch.cluster import backend, connect, lost
from optimiser.batch.deaf import deaf
from optimiser.batch.job import Job
from optimiser.batch.memory import keep_memory
from optimiser.batch.row import Result

Work = Callable[[Job], tuple[str, str]]
Found = Iterator[tuple[str, Result]]
#: What a cluster that is gone makes itself known by.
GONE = (OSError, CancelledError, asyncio.CancelledError)
KILLED = "its process was killed, perhaps for want of memory; the other rows are not affected"


@dataclass(frozen=True)
class Crew:
    """Who does the work.

    Parameters
    ----------
    jobs
        Processes on this machine, one solve each.
    client
        Of a Dask cluster, whose workers then do the work instead.
    """

    jobs: int = 1
    client: Any = None

    @classmethod
    def at(cls, jobs: int, scheduler: str | None) -> "Crew":
        """Return a crew of ``jobs`` processes, or the workers of the scheduler's address."""
        return cls(jobs, connect(scheduler) if scheduler else None)

    def close(self) -> None:
        """Let go of the cluster, if there is one."""
        if self.client:
            self.client.close()

    @property
    def width(self) -> int:
        """Return how many jobs may be under way at once."""
        return sum(self.client.ncores().values()) if self.client else self.jobs

    def config(self) -> AbstractContextManager[Any]:
        """Return joblib's settings; one thread a solve, as more get in each other's way."""
        held: AbstractContextManager[Any] = (
            parallel_config(backend(self.client))
            if self.client
            else parallel_config("loky", inner_max_num_threads=1)
        )
        return held

    def parallel(self) -> Parallel:
        """Return joblib's runner.

        Here it has two processes at least, as joblib takes one to mean this very process;
        ``pre_dispatch`` then keeps the second one idle.
        """
        here: dict[str, Any] = {"n_jobs": max(2, self.jobs), "pre_dispatch": 2 * self.jobs}
        if self.jobs == 1:
            here["pre_dispatch"] = 1
        # a cluster would share out at once what is dispatched, and leave the last ones waiting
        there = {"n_jobs": -1, "pre_dispatch": self.width}
        size = there if self.client else here
        return Parallel(batch_size=1, return_as="generator_unordered", **size)


def run_jobs(jobs: Iterable[Job], work: Work, crew: Crew) -> Found:
    """Do ``jobs`` and yield each key with its result as it comes, in no fixed order.

    When a process dies, the jobs that may have been on it are done again one at a time, and
    one that kills its process again is ``killed``.

    Raises
    ------
    SetupError
        If the cluster is gone.
    """
    left = {job.key: job for job in jobs}
    while left:
        try:
            yield from _all(list(left.values()), work, crew, left)
        except deaths():
            suspects = list(islice(left.values(), 2 * crew.width + 2))
            yield from _one_by_one(suspects, work, crew, left)


def deaths() -> tuple[type[BaseException], ...]:
    """Return the errors that say a process died; the cluster's only if it is in use."""
    cluster = sys.modules.get("distributed")
    return (BrokenProcessPool, cluster.KilledWorker) if cluster else (BrokenProcessPool,)


def _all(jobs: Sequence[Job], work: Work, crew: Crew, left: dict[str, Job]) -> Found:
    for key, said in _said(jobs, work, crew):
        del left[key]
        yield key, Result.model_validate_json(said)


def _said(jobs: Sequence[Job], work: Work, crew: Crew) -> Iterator[tuple[str, str]]:
    try:
        with crew.config():
            act = partial(_keeping, work) if crew.client else work
            with deaf():
                said = crew.parallel()(delayed(act)(job) for job in jobs)
            yield from said
    except GONE as error:
        if crew.client is None:
            raise
        raise lost(error) from None


def _keeping(work: Work, job: Job) -> tuple[str, str]:
    keep_memory()
    return work(job)


def _one_by_one(suspects: Sequence[Job], work: Work, crew: Crew, left: dict[str, Job]) -> Found:
    for job in suspects:
        try:
            yield from _all([job], work, crew, left)
        except deaths():
            del left[job.key]
            yield job.key, Result(status="killed", why_not=KILLED)
