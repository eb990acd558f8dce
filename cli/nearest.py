"""The nearest plan: where the rules clash, the concessions that cost least."""

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import click

from cli.files.scenario_file import Loaded
from cli.main import CLASH, OUT_OF_TIME
from cli.render.clash import clash_text
from cli.render.words import capital
from cli.season.folder import folder_of
from cli.solving import NO_PLAN
from optimiser.change.decided import Decided
from optimiser.domain.document import ConcessionPart, PlanDocument
from optimiser.domain.edits import Edit, Set
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.domain.week_number import number_of
from optimiser.explain.clash import CAP, Argument, argue
from optimiser.explain.easing import eased
from optimiser.explain.mend import mended, waiver_of
from optimiser.explain.oracle import Clock
from optimiser.explain.repair import Give, Repairs
from optimiser.review.audit import must_breaches
from optimiser.rule import Rule, Waiver

#: Seconds within which the concessions that cost least are looked for.
LOOK = 20.0
NONE_NEAR = "No nearest plan was found in the time for it; see seasonwright explain."


@dataclass(frozen=True)
class Nearest:
    """Rules that can be kept, and what was given up for them.

    Parameters
    ----------
    asked
        The rules that clash.
    """

    season: Season
    asked: Sequence[Rule]
    gives: tuple[Give, ...]

    @property
    def rules(self) -> list[Rule]:
        """Return the rules with what is given up."""
        return mended(self.asked, [(give.demand, give.by) for give in self.gives])

    def narrowed(self, plan: Plan) -> "Nearest":
        """Return the same with what ``plan`` does give up, and no more of it than that.

        A repair may let more give way than the best plan under it needs.
        """
        kept = self
        for give in self.gives:
            kept = kept._with(give, kept._least(give, plan))
        return kept

    def _least(self, give: Give, plan: Plan) -> int:
        """Return how little of one concession leaves ``plan`` no worse."""
        stands = self._broken(plan, give.demand.rule)
        return bisect_left(
            range(give.by),
            True,
            key=lambda by: self._with(give, by)._broken(plan, give.demand.rule) == stands,
        )

    def _with(self, give: Give, by: int) -> "Nearest":
        """Return the same with so much of one concession; none of it where that is 0."""
        gives = (replace(each, by=by) if each is give else each for each in self.gives)
        return replace(self, gives=tuple(each for each in gives if each.by))

    def _broken(self, plan: Plan, name: str) -> int:
        rules = [rule for rule in self.rules if rule.name == name]
        return sum(breach.excess for breach in must_breaches(self.season, rules, plan))

    @property
    def given(self) -> list[tuple[str, Waiver]]:
        """Return a waiver for each concession, by its rule."""
        return [(give.demand.rule, waiver_of(give.demand, give.by)) for give in self.gives]

    def concessions(self, plan: Plan) -> tuple[ConcessionPart, ...]:
        """Return what ``plan`` gives up."""
        rules = {rule.name: rule for rule in self.rules}
        return tuple(
            _concession(rules[give.demand.rule], self.season, plan, give)
            for give in self.narrowed(plan).gives
        )

    def marked(self, document: PlanDocument, plan: Plan) -> PlanDocument:
        """Return the document of ``plan`` with its concessions in it."""
        return document.model_copy(update={"concessions": self.concessions(plan)})

    def edits(self, rules: Mapping[str, Mapping[str, Any]]) -> list[Edit]:
        """Return the concessions as edits of a scenario with these tables of rules."""
        waived: dict[str, list[Any]] = {}
        for name, waiver in self.given:
            there = waived.setdefault(name, list(rules.get(name, {}).get("waive", ())))
            there.append(waiver.model_dump(exclude_none=True))
        return [Set(rule=name, parameter="waive", value=rows) for name, rows in waived.items()]


def nearest_or_exit(
    loaded: Loaded,
    rules: Sequence[Rule],
    status: str,
    *,
    strict: bool,
    decided: Decided | None = None,
) -> Nearest:
    """Tell why there is no plan, and return what would have to be given up for one.

    Parameters
    ----------
    decided
        Weeks that are over, in a season in progress: only weeks to come may give way.

    Raises
    ------
    click.exceptions.Exit
        If time ran out, if no concession is wanted, or if none was found.
    """
    on = " from here on" if decided else ""
    click.echo(f"{loaded.path}: no plan{on}: {NO_PLAN[status]}", err=True)
    if status != "clash":
        raise click.exceptions.Exit(OUT_OF_TIME)
    argument = Argument(loaded.season, rules, Clock(CAP), loaded.scenario.seed, decided)
    finding = argue(argument)
    folder = folder_of(loaded.path)
    ask = f"seasonwright explain {folder.path if folder else loaded.path}"
    if finding.verdict == "clash":
        click.echo(f"\n{clash_text(loaded.season, finding)}", err=True)
        click.echo(f"\nFor other repairs: {ask}", err=True)
    else:
        click.echo(f"\nWhich rules clash was not found in a few seconds: {ask}", err=True)
    if strict:
        raise click.exceptions.Exit(CLASH)
    argument.clock = argument.oracle.clock = Clock(LOOK, argument.clock.calls)
    repair = next(Repairs(argument, finding.keys).find(1), None)
    if repair is None:
        click.echo(NONE_NEAR, err=True)
        raise click.exceptions.Exit(CLASH)
    return Nearest(loaded.season, rules, repair.gives)


def _concession(rule: Rule, season: Season, plan: Plan, give: Give) -> ConcessionPart:
    key = give.demand.key
    return ConcessionPart(
        rule=key.rule,
        week=None if key.week is None else number_of(key.week),
        quality=key.quality,
        part=key.part,
        by=give.by,
        unit=give.demand.unit,
        safety=give.demand.safety,
        words=capital(str(eased(rule, give.demand, give.by, season, plan))),
    )
