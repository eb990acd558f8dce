"""What a worker does with one case: text in, text out, whatever happens."""

import json
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Protocol

from optimiser.batch.case import Case
from optimiser.batch.clash_words import clash_line
from optimiser.batch.numbers import planned_result
from optimiser.batch.row import Result
from optimiser.change.decided import Decided
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.review.audit import keeps
from optimiser.rule import Rule

if TYPE_CHECKING:  # the solvers are loaded in the workers alone
    from optimiser.joint_model.solve import Outcome

LONGEST_WORDS = 500
#: Share of a full search's tree for one season of many: what is not within the gap by then takes
#: too long.
USUAL_EFFORT = 0.25

Load = Callable[[Mapping[str, Mapping[str, Any]]], Sequence[Rule]]


class Solver(Protocol):
    """Plans one season."""

    def __call__(
        self,
        season: Season,
        rules: Sequence[Rule],
        *,
        seed: int,
        start: Plan | None,
        decided: Decided | None,
    ) -> "Outcome":
        """Return what was found; ``start`` is a plan that keeps the rules."""


@dataclass(frozen=True)
class Job:
    """A case on its way to a worker, as text; nothing of a solver is ever sent.

    Parameters
    ----------
    start
        JSON of a plan found under a tighter rule set, or None.
    decided
        What is over of a season in progress, as text; empty if nothing is.
    """

    key: str
    season: str
    rules: str
    seed: int
    start: str | None = None
    decided: str = ""


def job_of(case: Case, start: Plan | None = None) -> Job:
    """Return the job of a case."""
    plan = start.model_dump_json() if start else None
    return Job(case.key, case.season_json, case.rules_json, case.seed, plan, case.decided)


def do_job(job: Job, load: Load, solver: Solver | None = None) -> tuple[str, str]:
    """Solve one job and return its key and its result as JSON.

    Whatever goes wrong inside becomes the result, so that it costs this row and no other.

    Parameters
    ----------
    load
        Makes rules of their tables.
    solver
        Left out, the season's own.
    """
    began = time.perf_counter()
    try:
        result = _solved(job, load, solver or season_solver)
    except MemoryError:
        result = _trouble("out_of_memory", "the solve needed more memory than there was", began)
    except Exception as error:  # a batch goes on whatever one row does
        result = _trouble("failed", f"{type(error).__name__}: {error}", began)
    return job.key, result.model_dump_json()


def season_solver(
    season: Season,
    rules: Sequence[Rule],
    *,
    seed: int,
    start: Plan | None,
    decided: Decided | None = None,
    effort: float = USUAL_EFFORT,
) -> "Outcome":
    """Solve with one worker, repeatably.

    Parameters
    ----------
    effort
        Share of the tree that a full search may grow.
    """
    from optimiser.change.near import solve_near
    from optimiser.joint_model.effort import STEPS, Settings
    from optimiser.joint_model.solve import solve_season

    settings = Settings(seed=seed, steps=round(STEPS * effort), workers=1)
    if decided is None:
        return solve_season(season, rules, settings, start=start)
    return solve_near(season, rules, start or decided.past, settings, decided).outcome


def _solved(job: Job, load: Load, solver: Solver) -> Result:
    season = Season.model_validate_json(job.season)
    rules = load(json.loads(job.rules))
    start = Plan.model_validate_json(job.start) if job.start else None
    decided = decided_of(job)
    first = decided.weeks if decided else 0
    if start is not None and not keeps(season, rules, start, first=first):
        start = None
    outcome = solver(season, rules, seed=job.seed, start=start, decided=decided)
    return _result(season, rules, outcome, decided)


def decided_of(job: Job) -> Decided | None:
    """Return what is over of a job's season; None if nothing is."""
    return Decided.from_json(job.decided) if job.decided else None


def _result(
    season: Season, rules: Sequence[Rule], outcome: "Outcome", decided: Decided | None
) -> Result:
    if outcome.status == "clash":
        words = clash_line(season, rules, decided)
        return Result(status="clash", why_not=words, seconds=round(outcome.seconds, 3))
    if outcome.plan is None or outcome.verdict is None:
        words = "no plan was found in the time given; there may be one"
        return Result(status="out_of_time", why_not=words, seconds=round(outcome.seconds, 3))
    return planned_result(
        season,
        outcome.plan,
        rules,
        status=outcome.verdict.status,
        gap=round(outcome.verdict.gap, 6),
        seconds=outcome.seconds,
    )


def _trouble(status: Any, words: str, began: float) -> Result:
    seconds = round(time.perf_counter() - began, 3)
    return Result(status=status, why_not=words[:LONGEST_WORDS], seconds=seconds)
