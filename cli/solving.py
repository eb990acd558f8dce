"""What the commands that search have in common: their options, the search, and its document."""

import sys
import threading
import time
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any, Self, TypeVar

import click

from cli.files.scenario_file import Loaded
from cli.render.progress import ProgressLine, progress_text
from cli.versions import versions
from optimiser.describe import describe
from optimiser.domain.document import PlanDocument
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.rule import Rule
from optimiser.score import match_score
from optimiser.solve import Outcome, Progress, Settings, solve_season
from optimiser.together.solve import Whole, solve_together
from optimiser.together.verdict import Verdict

Command = TypeVar("Command", bound=Callable[..., Any])
#: Seconds between two looks of the progress line.
PAUSE = 0.2
#: Why there is no plan.
NO_PLAN = {
    "clash": "the rules clash, and no plan keeps them all (proven).",
    "out_of_time": "time ran out before one was found, which proves nothing; give --seconds more.",
}


def search_options(command: Command) -> Command:
    """Add the options of a search: ``--seed``, ``--fast`` and ``--seconds``."""
    options = [
        click.option(
            "--seed",
            type=click.IntRange(0, 2**31 - 1),
            help="Same seed, same plan; left out, that of the scenario.",
        ),
        click.option("--fast", is_flag=True, help="Search on every core; runs need not repeat."),
        click.option(
            "--seconds",
            type=click.FloatRange(min=1),
            help="Longest time for each of the two stages, in seconds.",
        ),
    ]
    for option in reversed(options):
        command = option(command)
    return command


def settings_of(
    loaded: Loaded, seed: int | None, fast: bool, seconds: float | None, *, certify: bool = False
) -> Settings:
    """Return the settings the options ask for."""
    chosen = loaded.scenario.seed if seed is None else seed
    settings = Settings(seed=chosen, fast=fast, certify=certify)
    return settings if seconds is None else replace(settings, seconds=seconds)


def solve_shown(loaded: Loaded, rules: Sequence[Rule], settings: Settings) -> Outcome:
    """Search for the best plan, with a progress line where stderr is a terminal.

    Ctrl-C ends the search and gives the best plan so far.

    Raises
    ------
    KeyboardInterrupt
        If there is none yet.
    """
    with Watcher(loaded.season, ProgressLine(sys.stderr)) as watcher:
        try:
            outcome = solve_season(loaded.season, rules, settings, watch=watcher.see)
        except KeyboardInterrupt:
            if watcher.plan is None:
                raise
            outcome = Outcome("planned", watcher.plan, (), watcher.seconds, stopped=True)
    if outcome.plan is None and outcome.stopped:
        raise KeyboardInterrupt
    return outcome


def solve_whole_shown(loaded: Loaded, rules: Sequence[Rule], settings: Settings) -> Whole:
    """Search blocks, bands and doses together, with a progress line.

    Raises
    ------
    KeyboardInterrupt
        If Ctrl-C ended it before there was a plan.
    """
    with Watcher(loaded.season, ProgressLine(sys.stderr)) as watcher:
        whole = solve_together(loaded.season, rules, settings, watch=watcher.see)
    if whole.outcome.plan is None and whole.outcome.stopped:
        raise KeyboardInterrupt
    return whole


def solve_first(loaded: Loaded, rules: Sequence[Rule], settings: Settings) -> Outcome:
    """Search as :func:`solve_shown` does, for a plan that is only where the work begins.

    Raises
    ------
    KeyboardInterrupt
        If Ctrl-C ended it: there is nothing to go on with.
    """
    outcome = solve_shown(loaded, rules, settings)
    if outcome.stopped:
        raise KeyboardInterrupt
    return outcome


class Watcher:
    """Keeps the progress line up to date while the solvers work."""

    def __init__(self, season: Season, line: ProgressLine) -> None:
        self.plan: Plan | None = None
        self._season, self._line = season, line
        self._began = time.perf_counter()
        self._last: Progress | None = None
        self._score: float | None = None
        self._over = threading.Event()
        self._ticks = threading.Thread(target=self._tick, daemon=True)

    @property
    def seconds(self) -> float:
        """Return the seconds since the search began."""
        return time.perf_counter() - self._began

    def see(self, progress: Progress) -> None:
        """Take in a better plan."""
        self._last = progress
        if progress.plan is not None:
            self.plan = progress.plan
            self._score = match_score(self._season, progress.plan).score

    def __enter__(self) -> Self:
        if self._line.live:
            self._ticks.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._over.set()
        if self._line.live:
            self._ticks.join()
        self._line.clear()

    def _tick(self) -> None:
        while not self._over.wait(PAUSE):
            self._line.show(self._words())

    def _words(self) -> str:
        last = self._last
        if last is None:
            return f"setting up {self.seconds:4.0f} s"
        return progress_text(last.stage, self.seconds, last.objective, last.bound, self._score)


def document_of(
    loaded: Loaded,
    rules: Sequence[Rule],
    plan: Plan,
    outcome: Outcome | None,
    settings: Settings,
    verdict: Verdict | None = None,
) -> PlanDocument:
    """Return the document of a plan of this season."""
    told = describe(
        loaded.season,
        plan,
        rules,
        outcome,
        digest=loaded.digest,
        seed=settings.seed,
        versions=versions(),
        prices=settings.prices,
        verdict=verdict,
        over=loaded.over,
    )
    scenario = told.scenario.model_copy(update={"group": loaded.group})
    return told.model_copy(update={"scenario": scenario})
