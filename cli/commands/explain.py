"""Say why there is no plan, and what would have to give."""

import sys
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import click

from cli.files.errors import InputError
from cli.files.mend import check_mended, mended_text
from cli.files.safe_write import write_text
from cli.files.scenario_file import Loaded, read_scenario
from cli.files.scenario_rules import read_rules
from cli.main import OUT_OF_TIME
from cli.render.clash import clash_text, explain_data, repair_words, repairs_text
from cli.render.json_text import json_text
from optimiser.explain.clash import CAP, Argument, Finding, argue
from optimiser.explain.mend import waiver_of
from optimiser.explain.oracle import Clock
from optimiser.explain.repair import Repair, Repairs
from optimiser.rule import Rule

#: Why there is nothing to explain.
POSSIBLE = "A plan that keeps all the rules exists; see the command plan."
UNKNOWN = "time ran out before a clash or a plan was found; give --seconds more."


@click.command("explain")
@click.argument("scenario", type=click.Path(path_type=Path))
@click.option("--all", "whole", is_flag=True, help="Show every demand and every clash found.")
@click.option(
    "--repairs",
    "most",
    type=click.IntRange(0, 10),
    default=3,
    show_default=True,
    help="How many repairs to look for.",
)
@click.option("--apply", "number", type=click.IntRange(1, 10), help="Write repair N to --out.")
@click.option(
    "-o", "--out", type=click.Path(path_type=Path), help="The mended scenario, a new file."
)
@click.option(
    "--seconds",
    type=click.FloatRange(min=0.1),
    default=10.0,
    show_default=True,
    help="Longest time for the repairs; the clash has 3 s of its own.",
)
@click.option("--seed", type=click.IntRange(0, 2**31 - 1), help="Left out, that of the scenario.")
@click.option(
    "--format",
    "form",
    type=click.Choice(["table", "json"]),
    default="table",
    show_default=True,
    help="How to print it; JSON has every demand and every question put to the solver.",
)
def explain_command(
    scenario: Path,
    whole: bool,
    most: int,
    number: int | None,
    out: Path | None,
    seconds: float,
    seed: int | None,
    form: str,
) -> None:
    """Say why no plan keeps the rules of SCENARIO, and the cheapest ways out.

    A clash is a set of rules at weeks that cannot be kept together, each of them needed for it.
    Closed weeks and fixtures are given and never blamed. A repair says which rules give way, where
    and by how much; each is shown only with a plan in hand. --apply N writes one into a copy of
    the scenario, comments and layout kept.

    Exit codes: 0 explained, or there is a plan; 4 out of time.
    """
    _check_apply(number, out)
    loaded = read_scenario(scenario)
    rules = read_rules(loaded)
    chosen = loaded.scenario.seed if seed is None else seed
    argument = Argument(loaded.season, rules, Clock(CAP), chosen)
    finding = argue(argument, further=3, shown=4) if whole else argue(argument)
    if finding.verdict != "clash":
        _nothing(loaded, finding)
        return
    if form == "table":
        click.echo(clash_text(loaded.season, rules, finding, whole=whole))
    argument.clock = argument.oracle.clock = Clock(seconds, argument.clock.calls)
    wanted = max(most, number or 0)
    repairs = list(Repairs(argument, finding.keys).find(wanted))
    finding = replace(finding, calls=tuple(argument.clock.calls))
    _show(loaded, rules, finding, repairs, form=form, whole=whole)
    if number is not None and out is not None:
        _apply(loaded, repairs, number, out)


def _check_apply(number: int | None, out: Path | None) -> None:
    if number is not None and out is None:
        raise click.UsageError("--apply needs --out, the file to write the mended scenario to")
    if out is not None and number is None:
        raise click.UsageError("--out needs --apply, the number of the repair to write")


def _nothing(loaded: Loaded, finding: Finding) -> None:
    if finding.verdict == "possible":
        click.echo(POSSIBLE)
        return
    click.echo(f"{loaded.path}: {UNKNOWN}", err=True)
    raise click.exceptions.Exit(OUT_OF_TIME)


def _show(
    loaded: Loaded,
    rules: Sequence[Rule],
    finding: Finding,
    repairs: Sequence[Repair],
    *,
    form: str,
    whole: bool,
) -> None:
    if form == "json":
        data = explain_data(loaded.season, rules, finding, repairs)
        click.echo(json_text(data, sys.stdout.encoding))
        return
    click.echo()
    click.echo(repairs_text(loaded.season, repairs, whole=whole))
    if repairs:
        click.echo(f"\nTo take one: seasonwright explain {loaded.path} --apply 1 -o NEW.toml")


def _apply(loaded: Loaded, repairs: Sequence[Repair], number: int, out: Path) -> None:
    if number > len(repairs):
        had = f"must be a repair that was found (got {number}, found {len(repairs)})"
        raise click.BadParameter(had, param_hint="--apply")
    if out.exists() and out.samefile(loaded.path):
        raise InputError(out, "", "must be a new file", "the scenario itself", "name another file")
    repair = repairs[number - 1]
    given = [(give.demand.rule, waiver_of(give.demand, give.by)) for give in repair.gives]
    text = mended_text(loaded, given, repair_words(loaded.season, repair), out)
    check_mended(text, out, repair.plan)
    write_text(out, text)
    click.echo(f"Wrote {out} with repair {number}.", err=True)
