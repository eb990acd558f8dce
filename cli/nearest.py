"""The nearest plan: where the rules clash, the concessions that cost least."""

from collections.abc import Sequence
from dataclasses import dataclass

import click

from cli.files.scenario_file import Loaded
from cli.main import CLASH, OUT_OF_TIME
from cli.render.clash import clash_text
from cli.render.ease_words import ease_said
from cli.solving import NO_PLAN
from optimiser.domain.document import ConcessionPart, PlanDocument
from optimiser.explain.clash import CAP, Argument, argue
from optimiser.explain.mend import mended
from optimiser.explain.oracle import Clock
from optimiser.explain.repair import Give, Repair, Repairs
from optimiser.rule import Rule

#: Seconds within which the concessions that cost least are looked for.
LOOK = 20.0
NONE_NEAR = "No nearest plan was found in the time for it; see seasonwright explain."


@dataclass(frozen=True)
class Nearest:
    """Rules that can be kept, and what was given up for them."""

    rules: Sequence[Rule]
    concessions: tuple[ConcessionPart, ...]

    def marked(self, document: PlanDocument) -> PlanDocument:
        """Return the document with the concessions in it."""
        return document.model_copy(update={"concessions": self.concessions})


def nearest_or_exit(loaded: Loaded, rules: Sequence[Rule], status: str, *, strict: bool) -> Nearest:
    """Tell why there is no plan, and return what would have to be given up for one.

    Raises
    ------
    click.exceptions.Exit
        If time ran out, if no concession is wanted, or if none was found.
    """
    click.echo(f"{loaded.path}: no plan: {NO_PLAN[status]}", err=True)
    if status != "clash":
        raise click.exceptions.Exit(OUT_OF_TIME)
    argument = Argument(loaded.season, rules, Clock(CAP), loaded.scenario.seed)
    finding = argue(argument)
    ask = f"seasonwright explain {loaded.path}"
    if finding.verdict == "clash":
        click.echo(f"\n{clash_text(loaded.season, rules, finding)}", err=True)
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
    return _nearest(loaded, rules, repair)


def _nearest(loaded: Loaded, rules: Sequence[Rule], repair: Repair) -> Nearest:
    kept = mended(rules, [(give.demand, give.by) for give in repair.gives])
    told = tuple(_concession(loaded, repair, give) for give in repair.gives)
    return Nearest(kept, told)


def _concession(loaded: Loaded, repair: Repair, give: Give) -> ConcessionPart:
    key = give.demand.key
    words = ease_said(loaded.season, repair.plan, give).text
    return ConcessionPart(
        rule=key.rule,
        week=None if key.week is None else key.week + 1,
        quality=key.quality,
        part=key.part,
        by=give.by,
        unit=give.demand.unit,
        safety=give.demand.safety,
        words=f"{words[0].upper()}{words[1:]}",
    )
