"""What the commands that search have in common: settings, the search, and its document."""

import sys
import threading
import time
from collections.abc import Sequence
from dataclasses import replace
from typing import Self

from cli.files.scenario_file import Loaded
from cli.program_versions import versions
from cli.render.search_progress import ProgressLine, progress_text
from optimiser.change.decided import Decided
from optimiser.change.near import Near, solve_near
from optimiser.domain.document import PlanDocument
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.joint_model.drive import Progress
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import Outcome, solve_season
from optimiser.joint_model.verdict import Verdict
from optimiser.review.describe import describe
from optimiser.rule import Rule

#: Seconds between two looks of the progress line.
PAUSE = 0.2
#: Why there is no plan.
NO_PLAN = {
    "clash": "the rules clash, and no plan keeps them all (proven).",
    "out_of_time": "time ran out before one was found, which proves nothing; give --seconds more.",
}


def settings_of(loaded: Loaded, seed: int | None, fast: bool, seconds: float | None) -> Settings:
    """Return the settings the options ask for."""
    chosen = loaded.scenario.seed if seed is None else seed
    settings = Settings(seed=chosen, fast=fast, rates=loaded.scenario.rates)
    return settings if seconds is None else replace(settings, seconds=seconds)


def solve_shown(loaded: Loaded, rules: Sequence[Rule], settings: Settings) -> Outcome:
    """Search for the best plan, with a progress line where stderr is a terminal.

    Ctrl-C ends the search and gives the best plan so far.

    Raises
    ------
    KeyboardInterrupt
        If there is none yet.
    """
    with Watcher(ProgressLine(sys.stderr)) as watcher:
        outcome = solve_season(loaded.season, rules, settings, watch=watcher.see)
    if outcome.plan is None and outcome.stopped:
        raise KeyboardInterrupt
    return outcome


def near_shown(
    season: Season,
    rules: Sequence[Rule],
    old: Plan,
    settings: Settings,
    decided: Decided | None = None,
) -> Near:
    """Search for the best plan near another one, with a progress line.

    Raises
    ------
    KeyboardInterrupt
        If Ctrl-C ended it before there was a plan.
    """
    with Watcher(ProgressLine(sys.stderr)) as watcher:
        near = solve_near(season, rules, old, settings, decided, watch=watcher.see)
    if near.plan is None and near.stopped:
        raise KeyboardInterrupt
    return near


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

    def __init__(self, line: ProgressLine) -> None:
        self._line = line
        self._began = time.perf_counter()
        self._last: Progress | None = None
        self._over = threading.Event()
        self._ticks = threading.Thread(target=self._tick, daemon=True)

    def see(self, progress: Progress) -> None:
        """Take in a better plan."""
        self._last = progress

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
        last, seconds = self._last, time.perf_counter() - self._began
        if last is None:
            return f"{seconds:4.0f} s  looking for a first plan"
        return progress_text(seconds, last.cost, last.bound)


def document_of(
    loaded: Loaded,
    rules: Sequence[Rule],
    plan: Plan,
    verdict: Verdict | None = None,
    seed: int | None = None,
) -> PlanDocument:
    """Return the document of a plan of this season; without a verdict it was made by hand."""
    told = describe(
        loaded.season,
        plan,
        rules,
        verdict,
        digest=loaded.digest,
        seed=loaded.scenario.seed if seed is None else seed,
        versions=versions(),
    )
    scenario = told.scenario.model_copy(update={"group": loaded.group})
    return told.model_copy(update={"scenario": scenario})
