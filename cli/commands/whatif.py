"""Plan a changed season and compare it with the one that stands."""

import sys
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import click

from cli.congesting import congest_options, congestion
from cli.edits import all_changes, edit_options, edits_of
from cli.files.changes_file import ChangedSeason, GivenChanges, changed_season, read_changes
from cli.files.plan_json import read_document
from cli.files.safe_write import write_text
from cli.files.scenario_file import Loaded, read_scenario
from cli.files.scenario_rules import read_rules
from cli.main import CLASH, OUT_OF_TIME
from cli.render.json_text import json_text
from cli.render.whatif import Base, Told, whatif_data, whatif_text
from cli.solving import NO_PLAN, document_of, search_options, settings_of, solve_shown
from cli.squad_groups import changed_alone, planned_alone, with_days_of
from cli.why_not import why_not
from optimiser.domain.document import to_plan
from optimiser.rule import Rule
from optimiser.solve import Outcome, Settings
from optimiser.whatif.ask import Side, ask

#: Deterministic limit of the doses of a changed season; `plan` tries harder.
QUICK = 0.4


@click.command("whatif")
@click.argument("scenario", type=click.Path(path_type=Path))
@click.argument("changes", nargs=-1, type=click.Path(path_type=Path))
@click.option(
    "--base",
    type=click.Path(path_type=Path),
    help="The plan as it stands, as saved by `plan --out PLAN.json`; it is not searched again.",
)
@click.option("--thorough", is_flag=True, help="Search as long as `plan` does.")
@click.option(
    "--out", type=click.Path(path_type=Path), help="Save the changed plan as .json (one change)."
)
@click.option(
    "--format",
    "form",
    type=click.Choice(["table", "json"]),
    default="table",
    show_default=True,
    help="How to print it.",
)
@edit_options
@congest_options
@search_options
def whatif_command(
    scenario: Path,
    changes: tuple[Path, ...],
    base: Path | None,
    thorough: bool,
    out: Path | None,
    form: str,
    seed: int | None,
    fast: bool,
    seconds: float | None,
    **options: Any,
) -> None:
    """Plan SCENARIO as it stands and as CHANGES would have it, and show the difference.

    CHANGES are TOML files, each with a name and a list of [[edits]]; edits given as options make
    one more. Choices stay as they are where nothing better is to be had. With --congest, futures
    are drawn in which a cup and postponements fill the midweeks.

    Exit code 3: the rules clash in a changed season. 4: no plan was found in time.
    """
    loaded = read_scenario(scenario)
    own, rules = loaded, tuple(read_rules(loaded))
    if base is not None and not options["congest"]:
        own, kept = planned_alone(base, loaded, rules)
        rules = tuple(kept)
    typed = edits_of(options)
    settings = settings_of(loaded, seed, fast, seconds)
    given = list(all_changes([read_changes(path) for path in changes], typed))
    if options["congest"]:
        _only(not given, "--congest looks at the season as it stands; leave the changes out")
        congestion(loaded, rules, settings, form, options)
        return
    _only(bool(given), "name a file of changes, an edit such as --move, or --congest")
    _only(out is None or len(given) == 1, "--out saves the plan of one change")
    seasons = [changed_alone(_changed(loaded, each), own.group) for each in given]
    stands = _base(own, rules, settings, base)
    side = Side(own.season, rules, stands.plan)
    effort = settings if thorough else replace(settings, dose_effort=QUICK)
    told = []
    for each in seasons:
        there = each.loaded.season
        answer = ask(side, there, each.rules, each.pairs, effort)
        clash = answer.near.status == "clash"
        told.append(Told(each, answer, why_not(there, each.rules) if clash else ""))
    _show(stands, told, form)
    if out is not None:
        _save(out, told[0], settings, base)
    _leave(told)


def _only(held: bool, words: str) -> None:
    if not held:
        raise click.UsageError(words)


def _changed(loaded: Loaded, given: GivenChanges) -> ChangedSeason:
    return changed_season(loaded, given.changes.name, given.changes.edits, given.origin)


def _base(loaded: Loaded, rules: Sequence[Rule], settings: Settings, saved: Path | None) -> Base:
    """Return the plan as it stands: the saved one if it is of this season, else a new one."""
    if saved is not None:
        document = read_document(saved)
        if document.scenario.digest == loaded.digest:
            return Base(loaded, to_plan(document, loaded.season), ())
        click.echo(
            f"{saved} was made for another season, or this one has changed since: planning anew.",
            err=True,
        )
    outcome = solve_shown(loaded, rules, settings)
    if outcome.plan is None:
        click.echo(f"{loaded.path}, as it stands: no plan: {NO_PLAN[outcome.status]}", err=True)
        raise click.exceptions.Exit(CLASH if outcome.status == "clash" else OUT_OF_TIME)
    return Base(loaded, outcome.plan, outcome.stages)


def _show(base: Base, told: list[Told], form: str) -> None:
    if form == "json":
        click.echo(json_text(whatif_data(base, told), sys.stdout.encoding))
    else:
        click.echo(whatif_text(base, told))


def _save(out: Path, told: Told, settings: Settings, base: Path | None) -> None:
    near, changed = told.answer.near, told.changed
    if near.plan is None:
        return
    outcome = Outcome("planned", near.plan, near.stages, near.seconds)
    document = document_of(changed.loaded, changed.rules, near.plan, outcome, settings)
    if base is not None and changed.loaded.group:
        document = with_days_of(read_document(base), document)
    write_text(out, f"{json_text(document.model_dump(mode='json'))}\n")
    click.echo(f"Wrote {out}.", err=True)


def _leave(told: list[Told]) -> None:
    statuses = [each.answer.near.status for each in told]
    if "clash" in statuses:
        raise click.exceptions.Exit(CLASH)
    if "out_of_time" in statuses:
        raise click.exceptions.Exit(OUT_OF_TIME)
