"""Looking for a season's plan: a good one soon, then the one that `plan` gives."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import inf, isfinite
from typing import Literal

from cli.render.clash import clash_data, repair_words
from cli.serve.jobs import Sooner, Tell, Told
from optimiser.change.decided import Decided
from optimiser.change.near import solve_near
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.explain.clash import CAP, Argument, Finding, argue
from optimiser.explain.mend import waiver_of
from optimiser.explain.oracle import Clock
from optimiser.explain.repair import Repair, Repairs
from optimiser.joint_model.cost import season_cost
from optimiser.joint_model.drive import Progress
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import solve_season
from optimiser.joint_model.verdict import Verdict
from optimiser.review.audit import keeps
from optimiser.rule import Rule

#: Gap up to which a plan of a changed season is shown before the search has ended.
FAIR = 0.25
#: Seconds within which repairs are looked for, and how many.
LOOK, MOST = 15.0, 3
CLASHING = "The rules clash; looking for those that do and for repairs"
Status = Literal["planned", "clash", "out_of_time"]


@dataclass(frozen=True)
class Planned:
    """A plan; provisional while the search for a better one goes on."""

    plan: Plan
    verdict: Verdict | None
    provisional: bool = False


@dataclass(frozen=True)
class Mend:
    """A repair in words, and the waivers that make it, by rule."""

    words: tuple[str, ...]
    waivers: tuple[tuple[str, dict[str, object]], ...]
    safety: bool


@dataclass(frozen=True)
class Clashing:
    """Rules that no plan keeps, one a line, and repairs; no lines if it is not known which."""

    lines: tuple[str, ...]
    mends: tuple[Mend, ...] = ()


@dataclass(frozen=True)
class NotFound:
    """Neither a plan nor a clash in the time there was."""


@dataclass(frozen=True)
class PlanJob:
    """A season to plan, near ``old`` if there is one.

    Parameters
    ----------
    decided
        Weeks that stand, in a season in progress.
    """

    season: Season
    rules: Sequence[Rule]
    settings: Settings
    old: Plan | None = None
    decided: Decided | None = None

    def run(self, tell: Tell) -> object:
        """Return the plan that `plan` would give; better and better ones are told sooner."""
        status, found = self._search(tell)
        return self._clash(tell) if status == "clash" else found or NotFound()

    def _search(self, tell: Tell) -> tuple[Status, Planned | None]:
        watch = _teller(tell)
        kept = self._kept()
        if kept is not None:
            tell(Sooner(kept))
        dear = self._dear()

        def better(plan: Plan, verdict: Verdict) -> None:
            # a poor plan says nothing of what a change does, so the one that stands is shown on
            fair = verdict.gap <= FAIR if verdict.bound > 0 else not kept and verdict.cost <= dear
            if self.old is None or fair:
                tell(Sooner(Planned(plan, verdict, provisional=True)))

        if self.old is None:
            outcome = solve_season(
                self.season, self.rules, self.settings, watch=watch, better=better
            )
            plan, verdict, status = outcome.plan, outcome.verdict, outcome.status
        else:
            near = solve_near(
                self.season,
                self.rules,
                self.old,
                self.settings,
                self.decided,
                watch=watch,
                better=better,
            )
            plan, verdict, status = near.plan, near.verdict, near.status
        return status, None if plan is None else Planned(plan, verdict)

    def _kept(self) -> Planned | None:
        """Return the plan that stands where changes leave it legal: how good it is, is not known.

        Weeks that are over stand as they were done, which the search sees to.
        """
        first = self.decided.weeks if self.decided else 0
        if self.old is None or first or not keeps(self.season, self.rules, self.old):
            return None
        parts = season_cost(self.season, self.rules, self.old, self.settings.rates)
        unknown = Verdict("stopped", parts, bound=0.0, gap=1.0, decided_by="steps", seconds=0.0)
        return Planned(self.old, unknown, provisional=True)

    def _dear(self) -> float:
        """Return what a plan of which no more is known may cost to be shown."""
        if self.old is None:
            return inf
        old = season_cost(self.season, self.rules, self.old, self.settings.rates).total
        return (1 + FAIR) * old

    def _clash(self, tell: Tell) -> Clashing:
        tell(Told(CLASHING))
        seed = self.settings.seed
        argument = Argument(self.season, self.rules, Clock(CAP), seed, self.decided)
        finding = argue(argument)
        lines = self._lines(finding)
        if finding.verdict != "clash":
            return Clashing(lines)
        tell(Sooner(Clashing(lines)))
        argument.clock = argument.oracle.clock = Clock(LOOK, argument.clock.calls)
        mends: list[Mend] = []
        for repair in Repairs(argument, finding.keys).find(MOST):
            mends.append(_mend(repair))
            tell(Sooner(Clashing(lines, tuple(mends))))
        return Clashing(lines, tuple(mends))

    def _lines(self, finding: Finding) -> tuple[str, ...]:
        """Return the smallest clash, with its sum and what the calendar gives."""
        if finding.verdict != "clash":
            return ()
        told = clash_data(self.season, finding.clashes[0])
        below = [*told["sums"], told["given"]]
        return tuple(line for line in (*told["lines"], *below) if line)


def _mend(repair: Repair) -> Mend:
    waivers = tuple(
        (give.demand.rule, waiver_of(give.demand, give.by).model_dump(exclude_none=True))
        for give in repair.gives
    )
    return Mend(tuple(repair_words(repair)), waivers, repair.safety)


def _teller(tell: Tell) -> Callable[[Progress], None]:
    """Return what tells how much better a plan could be."""

    def watch(progress: Progress) -> None:
        if isfinite(progress.bound) and progress.bound > 0:
            gap = max(0.0, (progress.cost - progress.bound) / max(1.0, progress.cost))
            tell(Told(f"Refining: no plan can be more than {100 * gap:.1f} % better"))

    return watch
