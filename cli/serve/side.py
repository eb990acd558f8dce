"""A season on one side of a comparison: on file, or as changed."""

from dataclasses import dataclass, replace
from functools import cached_property

from cli.files.scenario_file import Loaded
from cli.render.proof import proof
from cli.season.changing import changed_progress
from cli.season.documents import document_in_progress
from cli.season.progress import SeasonToday
from cli.serve.finding import PlanJob
from cli.solving import document_of
from optimiser.change.decided import Decided
from optimiser.days.week_plan import WeekPlan
from optimiser.domain.document import PlanDocument, SeasonPart
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.verdict import Verdict
from optimiser.review.describe import season_part
from optimiser.rule import Rule


@dataclass(frozen=True)
class SeasonSide:
    """A season and, if there is one yet, its plan.

    Parameters
    ----------
    loaded
        The season; in one that has begun, as it was lived.
    there
        What day it is and what was done, for a season folder with a plan in force.
    provisional
        True if a search for a better plan was to follow.
    """

    loaded: Loaded
    rules: tuple[Rule, ...]
    plan: Plan | None = None
    verdict: Verdict | None = None
    there: SeasonToday | None = None
    provisional: bool = False

    @property
    def season(self) -> Season:
        """Return the season."""
        return self.loaded.season

    @property
    def over(self) -> int:
        """Return how many weeks are decided."""
        return self.there.lived.weeks if self.there else 0

    @property
    def decided(self) -> Decided | None:
        """Return what no search may change."""
        return self.there.decided if self.there else None

    @property
    def proven(self) -> SeasonPart | None:
        """Return what is proven of the plan, if anything is known."""
        return season_part(self.verdict) if self.verdict else None

    @property
    def proof(self) -> str:
        """Return what is proven of the plan in a word or two."""
        return proof(self.proven)

    @cached_property
    def document(self) -> PlanDocument | None:
        """Return all that is worked out from the plan; None without one."""
        if self.plan is None:
            return None
        seed = self.loaded.scenario.seed
        if self.there is not None:
            return document_in_progress(self.there, self.rules, self.plan, self.verdict, seed)
        return document_of(self.loaded, self.rules, self.plan, self.verdict, seed)

    @cached_property
    def days(self) -> dict[int, WeekPlan]:
        """Return the weeks (from 0) that were put on their days so far."""
        return {}

    @cached_property
    def said(self) -> dict[str, str]:
        """Return what was said of the plan so far, so that it need not be worked out again."""
        return {}

    def planned(
        self, plan: Plan | None, verdict: Verdict | None, *, provisional: bool
    ) -> "SeasonSide":
        """Return the season with another plan."""
        return replace(self, plan=plan, verdict=verdict, provisional=provisional)

    def changed(self, loaded: Loaded, rules: tuple[Rule, ...]) -> "SeasonSide":
        """Return a changed season on the same day, without a plan."""
        there = None if self.there is None else changed_progress(self.there, loaded)
        return SeasonSide(there.loaded if there else loaded, rules, there=there)

    def job(self, settings: Settings, old: Plan | None) -> PlanJob:
        """Return the search for its plan, near an old one if there is one."""
        return PlanJob(self.season, self.rules, settings, old, self.decided)
