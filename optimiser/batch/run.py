"""A batch: every case solved once, tighter rule sets before looser ones."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial

from optimiser.batch.case import Case
from optimiser.batch.engine import Crew, run_jobs
from optimiser.batch.job import Load, Solver, do_job, job_of
from optimiser.batch.loosen import only_loosens
from optimiser.batch.row import SETTLED, BatchRow, Result
from optimiser.domain.plan import Plan


@dataclass(frozen=True)
class Order:
    """In which order cases are solved.

    Parameters
    ----------
    waves
        Cases by key; those of a wave wait for none of each other.
    parent
        By key, the key of the case whose plan a case starts from.
    """

    waves: list[dict[str, Case]] = field(default_factory=list)
    parent: dict[str, str] = field(default_factory=dict)


def run_batch(
    cases: Sequence[Case],
    crew: Crew,
    load: Load,
    *,
    known: Mapping[str, Result] | None = None,
    solver: Solver | None = None,
) -> Iterator[BatchRow]:
    """Solve ``cases`` and yield their rows as they come.

    Cases of one key are solved once. A rule set that only loosens another one starts from
    that one's plan.

    Parameters
    ----------
    load
        Makes rules of their tables; it is sent to the workers by name.
    known
        Results of an earlier run, by key.
    solver
        Left out, the season's own.
    """
    named: dict[str, list[Case]] = defaultdict(list)
    for case in cases:
        named[case.key].append(case)
    results = {
        key: found
        for key, found in (known or {}).items()
        if key in named and found.status in SETTLED
    }
    for key, found in results.items():
        yield from (case.row(found) for case in named[key])
    order = order_of(cases)
    act = partial(do_job, load=load, solver=solver)
    for wave in order.waves:
        jobs = (
            job_of(case, _start(order, results, key))
            for key, case in wave.items()
            if key not in results
        )
        for key, found in run_jobs(jobs, act, crew):
            results[key] = found
            yield from (case.row(found) for case in named[key])


def order_of(cases: Sequence[Case]) -> Order:
    """Return in which order cases are solved, and which starts from which."""
    order = Order()
    seasons: dict[tuple[str, int], dict[str, Case]] = defaultdict(dict)
    for case in cases:
        seasons[case.season_json + case.decided, case.seed].setdefault(case.key, case)
    for here in seasons.values():
        depth: dict[str, int] = {}
        for key in here:
            _place(key, here, depth, order)
            while len(order.waves) <= depth[key]:
                order.waves.append({})
        for key, case in here.items():
            order.waves[depth[key]][key] = case
    return order


def _place(key: str, here: Mapping[str, Case], depth: dict[str, int], order: Order) -> int:
    """Return how many rule sets must be solved before this one; the deepest is its parent."""
    if key not in depth:
        tighter = [
            other
            for other, case in here.items()
            if other != key and only_loosens(here[key].loaded, case.loaded)
        ]
        for other in tighter:
            _place(other, here, depth, order)
        if tighter:
            order.parent[key] = max(tighter, key=lambda other: depth[other])
        depth[key] = 1 + depth[order.parent[key]] if tighter else 0
    return depth[key]


def _start(order: Order, results: Mapping[str, Result], key: str) -> Plan | None:
    found = results.get(order.parent.get(key, ""))
    return found.plan if found else None
