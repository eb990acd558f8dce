"""The season on the page: what it is, what was changed, and the plan that goes with it."""

import threading
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from cli.files.changes_file import ChangedSeason, Origin, changed_season
from cli.files.read_text import read_text
from cli.files.safe_write import write_text
from cli.files.scenario_file import Loaded, read_scenario
from cli.files.scenario_rules import read_rules
from cli.render.json_text import json_text
from cli.serve.edit_words import edit_words
from cli.serve.save import saved_text
from cli.serve.solver import Solver
from cli.serve.worker import Done, Job
from cli.solving import document_of
from optimiser.domain.changes import Edit
from optimiser.domain.plan import Plan
from optimiser.rule import Rule
from optimiser.together.settings import Settings
from optimiser.together.verdict import Verdict

#: Guard of a quick answer, in seconds.
GUARD = 20.0
NO_PLAN = {
    "clash": "The rules clash: no plan keeps them all.",
    "out_of_time": "No plan was found in time, which proves nothing.",
}


class NotNowError(Exception):
    """Something that cannot be done at the moment, in words for people."""


@dataclass(frozen=True)
class Side:
    """A season and, if there is one yet, its plan."""

    loaded: Loaded
    rules: tuple[Rule, ...]
    plan: Plan | None = None
    verdict: Verdict | None = None


class Session:
    """What one person changes on the page.

    Parameters
    ----------
    plan
        The season's plan, if there is one already; else it is searched for.
    """

    def __init__(
        self, loaded: Loaded, rules: Sequence[Rule], plan: Plan | None, settings: Settings
    ) -> None:
        self.lock = threading.RLock()
        self.settings = settings
        self.text = read_text(loaded.path)
        self.base = self.here = Side(loaded, tuple(rules), plan)
        self.changed: ChangedSeason | None = None
        self.edits: tuple[Edit, ...] = ()
        self.told, self.version = "", 0
        self.solver = Solver(self._done)
        if plan is None:
            self.solver.start(Job(loaded.season, self.base.rules, settings))

    # --- changes ------------------------------------------------------------------------------

    def edit(self, edit: Edit) -> None:
        """Make one more change and plan anew.

        Raises
        ------
        InputError
            If it cannot be made; nothing is changed then.
        """
        self._make((*self.edits, edit))

    def take_back(self, index: int) -> None:
        """Take one change back, by its place from 0."""
        with self.lock:
            if not 0 <= index < len(self.edits):
                raise NotNowError("That change is no longer there.")
            self._make((*self.edits[:index], *self.edits[index + 1 :]))

    def stop(self) -> None:
        """End the search that runs."""
        with self.lock:
            if self.solver.progress() is not None:
                self.solver.stop()
                self._tell("Stopped. The plan shown is not one for these changes.")

    def _make(self, edits: tuple[Edit, ...]) -> None:
        with self.lock:
            if self.base.plan is None:
                raise NotNowError("Wait for the first plan of the season.")
            changed = self._season(edits)
            self.edits, self.changed = edits, changed
            if changed is None:
                self.solver.stop()
                self.here = self.base
                self._tell("As on file.")
                return
            self.here = Side(changed.loaded, changed.rules)
            quick = replace(self.settings, quick=True, seconds=GUARD)
            season = changed.loaded.season
            self.solver.start(Job(season, changed.rules, quick, self.base.plan))
            self._tell("")

    def _season(self, edits: tuple[Edit, ...]) -> ChangedSeason | None:
        if not edits:
            return None
        origin = Origin("the page", labels=tuple(map(edit_words, edits)))
        return changed_season(self.base.loaded, "changed", edits, origin)

    def _done(self, done: Done) -> None:
        """Take in what a search came to."""
        with self.lock:
            if done.plan is None:
                more = f"\n{done.why_not}" if done.why_not else ""
                self._tell(NO_PLAN.get(done.status, "") + more)
                return
            self.here = replace(self.here, plan=done.plan, verdict=done.verdict)
            if self.base.plan is None:
                self.base = self.here
            self._tell("")

    def _tell(self, words: str) -> None:
        self.told = words
        self.version += 1

    # --- files --------------------------------------------------------------------------------

    @property
    def files(self) -> tuple[Path, Path]:
        """Return where the scenario and its plan are saved."""
        path = self.base.loaded.path
        return path, path.with_suffix(".plan.json")

    def save(self) -> None:
        """Write the changed scenario and its plan.

        Raises
        ------
        NotNowError
            If there is no plan for it yet, or the file was changed by somebody else.
        InputError
            If a file cannot be written.
        """
        with self.lock:
            if self.here.plan is None or self.solver.progress() is not None:
                raise NotNowError(
                    "There is no plan for these changes yet; wait, or take some back."
                )
            scenario, plan = self.files
            if read_text(scenario) != self.text:
                raise NotNowError(f"{scenario.name} was changed since; start again to see it.")
            if self.changed is not None:
                self.text = saved_text(self.text, self.base.loaded, self.changed)
                write_text(scenario, self.text)
            self._saved(scenario, plan)

    def _saved(self, scenario: Path, plan: Path) -> None:
        """Write the plan, and go on from what now stands on file."""
        here, loaded = self.here, read_scenario(scenario)
        assert here.plan is not None
        rules = tuple(read_rules(loaded))
        document = document_of(loaded, rules, here.plan, here.verdict, self.settings.seed)
        write_text(plan, f"{json_text(document.model_dump(mode='json'))}\n")
        self.base = self.here = Side(loaded, rules, here.plan, here.verdict)
        self.edits, self.changed = (), None
        self._tell(f"Saved {scenario.name} and {plan.name}.")
