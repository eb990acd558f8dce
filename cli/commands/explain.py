"""Say why there is no plan, and what would have to give."""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import click

from cli.files.errors import InputError
from cli.files.mend import check_mended, mended_text
from cli.files.safe_write import write_text
from cli.files.scenario_file import Loaded, load_scenario, read_scenario
from cli.files.scenario_rules import read_rules
from cli.main import OUT_OF_TIME
from cli.options import FileToWrite, format_option, seconds_option, seed_option
from cli.render.clash import clash_text, explain_data, repair_words, repairs_text
from cli.saying import say_json
from cli.season.applying import put_in_force
from cli.season.argument import season_argument
from cli.season.changing import changed_progress
from cli.season.commit import Action
from cli.season.documents import document_in_progress
from cli.season.folder import SCENARIO, Folder, folder_of
from cli.season.progress import SeasonToday, begun, progress
from cli.solving import settings_of
from constraints.load import load_rules
from optimiser.change.near import solve_near
from optimiser.explain.clash import CAP, Argument, Finding, argue
from optimiser.explain.mend import waiver_of
from optimiser.explain.oracle import Clock
from optimiser.explain.repair import Repair, Repairs
from optimiser.joint_model.effort import Settings

#: Why there is nothing to explain.
POSSIBLE = "A plan that keeps all the rules exists; see the command plan."
UNKNOWN = "time ran out before a clash or a plan was found; give --seconds more."


@click.command("explain")
@season_argument
@click.option("--all", "whole", is_flag=True, help="Show every demand and every clash found.")
@click.option(
    "--repairs",
    "most",
    type=click.IntRange(0, 10),
    default=3,
    show_default=True,
    help="How many repairs to look for.",
)
@click.option(
    "--apply",
    "number",
    type=click.IntRange(1, 10),
    help="Write repair N: to --out, or into the season folder with its plan; see undo.",
)
@click.option("-o", "--out", type=FileToWrite(), help="The mended scenario, a new file.")
@seconds_option("Longest time for the repairs; the clash has 3 s of its own.", 10.0, least=0.1)
@seed_option("Left out, that of the scenario.")
@format_option(
    "table",
    "json",
    about="How to print it; JSON has every demand and every question put to the solver.",
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
    the scenario, comments and layout kept; in a season folder it is put in force, plan and all.
    Of a season that has begun only the weeks to come are argued about.

    Exit codes: 0 explained, or there is a plan; 4 out of time.
    """
    loaded = read_scenario(scenario)
    folder = folder_of(loaded.path)
    _check_apply(number, out, folder)
    rules = read_rules(loaded)
    chosen = loaded.scenario.seed if seed is None else seed
    there = begun(loaded, rules)
    if there is not None:
        loaded = there.loaded
    decided = there.decided if there else None
    argument = Argument(loaded.season, rules, Clock(CAP), chosen, decided)
    finding = argue(argument, further=3, shown=4) if whole else argue(argument)
    if finding.verdict != "clash":
        _nothing(loaded, finding)
        return
    if form == "table":
        click.echo(clash_text(loaded.season, finding, whole=whole))
    argument.clock = argument.oracle.clock = Clock(seconds, argument.clock.calls)
    wanted = max(most, number or 0)
    repairs = list(Repairs(argument, finding.keys).find(wanted))
    finding = replace(finding, calls=tuple(argument.clock.calls))
    _show(loaded, finding, repairs, form=form, whole=whole)
    if number is not None and out is not None:
        _apply(loaded, argument, repairs, number, out)
    elif number is not None and folder is not None:
        settings = settings_of(loaded, seed, False, None)
        _put(folder, argument, there, loaded, repairs, number, settings)


def _check_apply(number: int | None, out: Path | None, folder: Folder | None) -> None:
    if number is not None and out is None and folder is None:
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
    finding: Finding,
    repairs: Sequence[Repair],
    *,
    form: str,
    whole: bool,
) -> None:
    if form == "json":
        say_json(explain_data(loaded.season, finding, repairs))
        return
    click.echo()
    click.echo(repairs_text(repairs, whole=whole))
    if repairs:
        folder = folder_of(loaded.path)
        ask = f"{folder.path} --apply 1" if folder else f"{loaded.path} --apply 1 -o NEW.toml"
        click.echo(f"\nTo take one: seasonwright explain {ask}")


def _mended(
    loaded: Loaded, argument: Argument, repairs: Sequence[Repair], number: int, out: Path
) -> tuple[str, Repair]:
    """Return the text of the mended scenario, and the repair."""
    if number > len(repairs):
        had = f"must be a repair that was found (got {number}, found {len(repairs)})"
        raise click.BadParameter(had, param_hint="--apply")
    repair = repairs[number - 1]
    given = [(give.demand.rule, waiver_of(give.demand, give.by)) for give in repair.gives]
    text = mended_text(loaded, given, repair_words(repair), out)
    check_mended(text, out, lambda rules: argument.breaches(repair.plan, rules))
    return text, repair


def _apply(
    loaded: Loaded, argument: Argument, repairs: Sequence[Repair], number: int, out: Path
) -> None:
    if out.exists() and out.samefile(loaded.path):
        raise InputError(out, "", "must be a new file", "the scenario itself", "name another file")
    text, _ = _mended(loaded, argument, repairs, number, out)
    write_text(out, text)
    click.echo(f"Wrote {out} with repair {number}.", err=True)


def _put(
    folder: Folder,
    argument: Argument,
    there: SeasonToday | None,
    loaded: Loaded,
    repairs: Sequence[Repair],
    number: int,
    settings: Settings,
) -> None:
    """Put the mended scenario in force, with the best plan of it; the past stands."""
    text, repair = _mended(loaded, argument, repairs, number, loaded.path)
    mended = load_scenario(text, loaded.path)
    rules = load_rules(mended.scenario.rules, mended.season)
    there = changed_progress(there or progress(loaded, repair.plan), mended)
    near = solve_near(there.loaded.season, rules, repair.plan, settings, there.decided)
    plan = near.plan or repair.plan
    document = document_in_progress(there, rules, plan, near.verdict, settings.seed)
    words = f"repair {number}: {'; '.join(repair_words(repair))}"
    put_in_force(folder, Action("explain", words), document, {SCENARIO: text.encode()})
