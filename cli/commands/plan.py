"""Find the best plan of a season."""

import sys
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import click

from cli.files.plan_csv import plan_csv
from cli.files.scenario_file import Loaded, read_scenario
from cli.files.scenario_rules import read_rules
from cli.helping import Stand, with_helps
from cli.main import CLASH
from cli.nearest import Nearest, nearest_or_exit
from cli.options import (
    FROM_ONE,
    PATH,
    apply_option,
    ascii_option,
    format_option,
    out_option,
    search_options,
    strict_option,
)
from cli.render.breaches import breaches_text
from cli.render.care import season_care_text
from cli.render.json_text import json_text
from cli.render.limits import limits_text
from cli.render.plain_verdict import plain_verdict
from cli.render.plan_table import plan_table
from cli.render.signs import signs_for
from cli.saying import save
from cli.season.applying import folder_to_apply, put_in_force
from cli.season.argument import season_argument
from cli.season.attendance import questions_of_absences
from cli.season.changing import changed_progress
from cli.season.commit import Action
from cli.season.documents import document_in_progress
from cli.season.folder import Folder, folder_of
from cli.season.plan_bytes import plan_bytes
from cli.season.progress import SeasonToday, begun, progress, tell_unplanned
from cli.season.rewrite import Rewritten, rewritten
from cli.solving import (
    document_of,
    near_shown,
    settings_of,
    solve_shown,
)
from optimiser.domain.document import PlanDocument, SteadyPart
from optimiser.domain.plan import Plan
from optimiser.explain.limits import Limit, limits
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import Outcome
from optimiser.rule import Rule


@click.command("plan")
@season_argument
@search_options
@click.option(
    "--certify",
    is_flag=True,
    help="Have a proof confirmed by another solver, as far as it gets in ten minutes.",
)
@click.option(
    "--prove",
    is_flag=True,
    help="Search on until nothing better can exist: minutes, --seconds at most (600 left out).",
)
@click.option(
    "--robust",
    is_flag=True,
    help="Make the plan that does best in the worst tenth of 64 settings of the response, drawn "
    "up to 20 % from what is thought, and say what it is worth there.",
)
@strict_option
@click.option("--from", "first", type=FROM_ONE, default=1, help="First week to show.")
@click.option("--to", "last", type=FROM_ONE, help="Last week to show.")
@format_option("table", "json", "csv", about="How to print it; JSON is always the whole plan.")
@out_option("Save the whole plan too, as .json or .csv; both can be read back.", ".json", ".csv")
@apply_option("Put it in force in the season folder; can be undone.")
@ascii_option
@click.option(
    "--futures",
    type=PATH,
    help="A TOML file of ways the season may go: one plan shared until they part, then a branch "
    "for each; --out then saves one file a branch.",
)
def plan_command(
    scenario: Path,
    seed: int | None,
    fast: bool,
    seconds: float | None,
    certify: bool,
    prove: bool,
    robust: bool,
    strict: bool,
    first: int,
    last: int | None,
    form: str,
    out: Path | None,
    applied: bool,
    plain: bool,
    futures: Path | None,
) -> None:
    """Find the best plan for the season in SCENARIO and print it.

    In a season folder without a plan it is put in force, else with --apply; weeks that are over
    stand as they were done. Ctrl-C ends the search; the best plan so far is printed and saved.

    Exit code 3: the rules clash and no plan keeps them all; the clash is shown, and then the
    nearest plan with what it gives up, unless --strict. 4: out of time before a plan was found.
    """
    loaded = read_scenario(scenario)
    rules = read_rules(loaded)
    _check_weeks(loaded, first, last)
    folder = folder_to_apply(loaded) if applied else folder_of(loaded.path)
    settings = replace(settings_of(loaded, seed, fast, seconds), certify=certify)
    if prove:
        settings = settings.to_the_end(seconds)
    there = begun(loaded, rules)
    if futures is not None:
        from cli.hedging import plan_futures

        plan_futures(loaded, futures, settings, form, out, there, plain=plain)
        return
    if there is not None:
        loaded = there.loaded
    questions = questions_of_absences(loaded, there.day if there else None)
    made = _found(loaded, rules, settings, there, strict=strict, robust=robust)
    found = limits(loaded.season, made.plan, made.rules)
    document = _document(loaded, made, settings, found, there)
    shown = _shown(loaded, document, found, form, (first, last), plain=plain)
    click.echo(shown, nl=form != "csv")
    for question in questions:
        click.echo(question, err=True)
    if out is not None:
        _save(out, document)
    if folder is not None:
        if there is None:
            tell_unplanned(loaded)
        there = there or progress(loaded, made.plan)
        _put(folder, there, made, settings.seed, document, applied=applied)
    if made.nearest is not None:
        raise click.exceptions.Exit(CLASH)


@dataclass(frozen=True)
class _Found:
    """A plan and the rules it keeps; where these gave way to a clash, the nearest plan."""

    outcome: Outcome
    plan: Plan
    rules: Sequence[Rule]
    nearest: Nearest | None
    steady: SteadyPart | None = None


def _found(
    loaded: Loaded,
    rules: Sequence[Rule],
    settings: Settings,
    there: SeasonToday | None,
    *,
    strict: bool,
    robust: bool,
) -> _Found:
    """Search for the best plan; where rules clash, the nearest; with ``robust``, a steady one."""
    decided = there.decided if there else None
    outcome, nearest, steady = _searched(loaded, rules, settings, there), None, None
    if outcome.plan is None:
        nearest = nearest_or_exit(loaded, rules, outcome.status, strict=strict, decided=decided)
        outcome = _searched(loaded, nearest.rules, settings, there)
        nearest = nearest if outcome.plan is None else nearest.narrowed(outcome.plan)
        rules = nearest.rules
    if robust and outcome.plan is not None and not outcome.stopped:
        from cli.steadying import steadied

        outcome, steady = steadied(loaded, rules, outcome, settings, decided)
    if outcome.plan is None:
        raise click.exceptions.Exit(CLASH)
    return _Found(outcome, outcome.plan, rules, nearest, steady)


def _document(
    loaded: Loaded,
    made: _Found,
    settings: Settings,
    found: Sequence[Limit],
    there: SeasonToday | None,
) -> PlanDocument:
    """Return the plan with all that is said of it, and where help would help most."""
    document = document_of(loaded, made.rules, made.plan, made.outcome.verdict, settings.seed)
    document = document.model_copy(update={"steady": made.steady})
    if made.nearest is not None:
        document = made.nearest.marked(document, made.plan)
    if made.outcome.stopped:
        click.echo("Stopped by hand: this is the best plan so far.", err=True)
        return document
    return with_helps(document, Stand(loaded, made.rules, made.plan, settings, found, there))


def _shown(
    loaded: Loaded,
    document: PlanDocument,
    found: Sequence[Limit],
    form: str,
    span: tuple[int, int | None],
    *,
    plain: bool,
) -> str:
    """Return a plan as it is printed; JSON is always of the whole ``span`` of weeks."""
    first, last = span
    if form == "json":
        return json_text(document.model_dump(mode="json"), sys.stdout.encoding)
    if form == "csv":
        return plan_csv(document, first=first, last=last)
    signs = signs_for(sys.stdout.encoding, plain=plain)
    said = plain_verdict(document, found, _ask(loaded))
    table = plan_table(document, loaded.season, signs, first=first, last=last)
    parts = [table, _below(loaded, found, document)]
    return "\n".join([f"{said}\n", *parts] if said else parts)


def _put(
    folder: Folder,
    there: SeasonToday,
    found: _Found,
    seed: int,
    shown: PlanDocument,
    *,
    applied: bool,
) -> None:
    """Put a plan in force if it was asked for, or if there is none yet and it gives nothing up."""
    nearest = found.nearest
    if nearest is not None and not applied:
        click.echo(
            f"It is not in force: `seasonwright plan {folder.path} --apply` puts it there, with "
            "what it gives up written into the scenario.",
            err=True,
        )
        return
    if applied or not folder.plan.exists():
        made = _conceded(there.loaded.path, nearest) if nearest else None
        there = changed_progress(there, made.loaded) if made else there
        document = document_in_progress(there, found.rules, found.plan, found.outcome.verdict, seed)
        told = {"concessions": shown.concessions, "helps": shown.helps}
        document = document.model_copy(update=told)
        score = f"match score {document.match.score or 0:.1f}"
        put_in_force(folder, Action("plan", score), document, made.files if made else None)
        return
    click.echo(
        "The plan in force stays as it is; --apply puts this one in its place, and `replan` shows "
        "what that would change.",
        err=True,
    )


def _ask(loaded: Loaded) -> str:
    folder = folder_of(loaded.path)
    path = folder.path if folder else loaded.path
    return f"`seasonwright prices {path}` says what each rule costs."


def _conceded(path: Path, nearest: Nearest) -> Rewritten:
    """Return the files of a season with what its nearest plan gives up."""
    written = read_scenario(path)
    return rewritten(written, nearest.edits(written.scenario.rules))


def _searched(
    loaded: Loaded, rules: Sequence[Rule], settings: Settings, there: SeasonToday | None
) -> Outcome:
    if there is None:
        return solve_shown(loaded, rules, settings)
    return near_shown(loaded.season, rules, there.lived.plan, settings, there.decided).outcome


def _check_weeks(loaded: Loaded, first: int, last: int | None) -> None:
    weeks = len(loaded.season.weeks)
    for name, week in (("--from", first), ("--to", last)):
        if week is not None and week > weeks:
            raise click.BadParameter(f"must be 1 to {weeks} (got {week})", param_hint=name)
    if last is not None and last < first:
        raise click.BadParameter(f"must not come before --from {first}", param_hint="--to")


def _save(out: Path, document: PlanDocument) -> None:
    as_csv = out.suffix.lower() == ".csv"
    save(out, plan_csv(document).encode() if as_csv else plan_bytes(document))


def _below(loaded: Loaded, found: Sequence[Limit], document: PlanDocument) -> str:
    """Return what stands below the table."""
    parts = [limits_text(loaded.season, found), season_care_text(loaded.season)]
    if document.breaches:
        parts.insert(0, breaches_text(document.breaches))
    return "\n" + "\n\n".join(parts)
