"""The process that searches, so that a search can be ended at once."""

import signal
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from importlib import import_module
from multiprocessing.connection import Connection
from typing import Literal

from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.rule import Rule
from optimiser.together.drive import Progress
from optimiser.together.settings import Settings
from optimiser.together.verdict import Verdict


@dataclass(frozen=True)
class Job:
    """A season to plan; near ``old`` if there is one."""

    season: Season
    rules: Sequence[Rule]
    settings: Settings
    old: Plan | None = None


@dataclass(frozen=True)
class Told:
    """How far a search is, in words."""

    words: str


@dataclass(frozen=True)
class Done:
    """What a search came to; ``why_not`` is the clash in words, if there is one."""

    status: Literal["planned", "clash", "out_of_time"]
    plan: Plan | None = None
    verdict: Verdict | None = None
    why_not: str = ""


def work(connection: Connection) -> None:
    """Do jobs until nobody is there to give them."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    for module in ("optimiser.replan.near", "cli.why_not"):
        import_module(module)  # now, so that the first job need not wait
    with suppress(EOFError, OSError, KeyboardInterrupt):
        while True:
            job: Job = connection.recv()
            connection.send(_done(connection, job))


def _done(connection: Connection, job: Job) -> Done:
    found = _near(connection, job) if job.old is not None else _first(connection, job)
    if found.status != "clash":
        return found
    from cli.why_not import why_not

    connection.send(Told("The rules clash; looking for those that do"))
    return Done("clash", why_not=why_not(job.season, job.rules))


def _near(connection: Connection, job: Job) -> Done:
    from optimiser.replan.near import solve_near

    assert job.old is not None
    near = solve_near(job.season, job.rules, job.old, job.settings, watch=_teller(connection))
    return Done(near.status, near.plan, near.verdict)


def _first(connection: Connection, job: Job) -> Done:
    from optimiser.solve import solve_season

    outcome = solve_season(job.season, job.rules, job.settings, watch=_teller(connection))
    return Done(outcome.status, outcome.plan, outcome.verdict)


def _teller(connection: Connection) -> Callable[[Progress], None]:
    from cli.render.progress import progress_text

    def watch(progress: Progress) -> None:
        connection.send(Told(progress_text(progress.seconds, progress.cost, progress.bound)))

    return watch
