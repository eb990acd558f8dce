"""Plan a changed season and compare it with the one that stands."""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import click

from cli.congesting import congest_options, congestion
from cli.edits import all_changes, edit_options, edits_of
from cli.explaining import clash_in_short
from cli.files.changes_file import ChangedSeason, GivenChanges, changed_season, read_changes
from cli.files.plan_json import check_season, read_document
from cli.files.scenario_file import Loaded, read_scenario
from cli.files.scenario_rules import read_rules
from cli.main import CLASH, OUT_OF_TIME
from cli.options import (
    PATH,
    apply_option,
    base_option,
    format_option,
    out_option,
    search_options,
    thorough_option,
)
from cli.render.whatif import Base, ToldChange, whatif_data, whatif_text
from cli.saying import need, save, say_json, without_plan
from cli.season.applying import folder_to_apply, put_in_force
from cli.season.argument import named_plan, season_argument
from cli.season.changing import changed_progress, changes_words, check_edits_ahead, write_season
from cli.season.commit import Action
from cli.season.documents import document_in_progress
from cli.season.folder import Folder, folder_of
from cli.season.plan_bytes import plan_bytes
from cli.season.progress import SeasonToday, check_ahead, progress
from cli.season.rewrite import Rewritten, rewritten
from cli.solving import NO_PLAN, document_of, settings_of, solve_shown
from cli.squad_groups import changed_alone, planned_alone, with_days_of
from optimiser.change.ask import Side, ask
from optimiser.domain.document import to_plan
from optimiser.joint_model.effort import THOROUGH, Settings
from optimiser.joint_model.verdict import judged, told_before
from optimiser.review.describe import season_part
from optimiser.rule import Rule


@click.command("whatif")
@season_argument
@click.argument("changes", nargs=-1, type=PATH)
@base_option
@apply_option(
    "Write scenario, fixtures and plan of a season folder together (one change); see undo."
)
@thorough_option
@out_option("Save the changed plan as .json (one change).")
@format_option("table", "json")
@edit_options
@congest_options
@search_options
def whatif_command(
    scenario: Path,
    changes: tuple[Path, ...],
    base: Path | None,
    applied: bool,
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

    In a season folder the plan in force is what stands, and weeks that are over are not planned
    anew. --out saves the changed scenario beside the changed plan, so that both can be used on.

    Exit code 3: the rules clash in a changed season. 4: no plan was found in time.
    """
    loaded = read_scenario(scenario)
    own, rules = loaded, tuple(read_rules(loaded))
    base = named_plan(scenario, base)
    if base is not None and not options["congest"]:
        own, kept = planned_alone(base, loaded, rules)
        rules = tuple(kept)
    typed = edits_of(options)
    settings = settings_of(loaded, seed, fast, seconds)
    given = list(all_changes([read_changes(path) for path in changes], typed))
    if options["congest"]:
        need(not given, "--congest looks at the season as it stands; leave the changes out")
        congestion(loaded, rules, settings, form, options)
        return
    need(bool(given), "name a file of changes, an edit such as --move, or --congest")
    one = len(given) == 1
    need(out is None or one, "--out saves the plan of one change")
    need(not applied or one, "--apply puts one change in force")
    folder = folder_to_apply(own) if applied else None
    stands = _base(own, rules, settings, base)
    there = progress(own, stands.plan)
    check_ahead(there)
    for each in given:
        check_edits_ahead(each, there)
    seasons = [changed_alone(_changed(loaded, each), own.group) for each in given]
    # before the search, so that it is told what cannot be written while nothing is lost
    made = rewritten(loaded, given[0].changes.edits) if folder else None
    stands = _lived(stands, there, rules, settings)
    side = Side(there.loaded.season, rules, there.lived.plan)
    effort = replace(settings, close=THOROUGH) if thorough else settings
    lives = [changed_progress(there, each.loaded) for each in seasons]
    told = [_told(side, *each, effort) for each in zip(seasons, lives, strict=True)]
    _show(stands, told, form)
    if out is not None:
        _save(out, loaded, given[0], told[0], settings, base)
    if folder is not None and made is not None:
        _apply(folder, made, given[0], told[0], lives[0], settings)
    _leave(told)


def _apply(
    folder: Folder,
    made: Rewritten,
    given: GivenChanges,
    told: ToldChange,
    then: SeasonToday,
    settings: Settings,
) -> None:
    """Put the changed season and its plan in force."""
    near = told.answer.near
    if near.plan is None:
        click.echo("Nothing was applied, as there is no plan.", err=True)
        return
    document = document_in_progress(
        then, told.changed.rules, near.plan, near.verdict, settings.seed
    )
    for note in made.notes:
        click.echo(f"{note}.", err=True)
    put_in_force(folder, Action("whatif", changes_words(given)), document, made.files)


def _told(side: Side, changed: ChangedSeason, then: SeasonToday, effort: Settings) -> ToldChange:
    """Return what becomes of one change, on the day it is."""
    season, rules = then.loaded.season, changed.rules
    answer = ask(side, season, rules, changed.pairs, effort, then.decided)
    clash = answer.near.status == "clash"
    why_not = clash_in_short(season, rules, then.decided) if clash else ""
    return ToldChange(replace(changed, loaded=then.loaded), answer, why_not)


def _changed(loaded: Loaded, given: GivenChanges) -> ChangedSeason:
    return changed_season(loaded, given.changes.name, given.changes.edits, given.origin)


def _base(loaded: Loaded, rules: Sequence[Rule], settings: Settings, saved: Path | None) -> Base:
    """Return the plan as it stands: the saved one if it is of this season, else a new one."""
    if saved is not None:
        document = read_document(saved)
        if document.scenario.digest == loaded.digest:
            return Base(loaded, to_plan(document, loaded.season), document.season)
        if folder_of(loaded.path):
            check_season(saved, document, loaded)
        click.echo(
            f"{saved} was made for another season, or this one has changed since: planning anew.",
            err=True,
        )
    outcome = solve_shown(loaded, rules, settings)
    if outcome.plan is None:
        click.echo(f"{loaded.path}, as it stands: no plan: {NO_PLAN[outcome.status]}", err=True)
        raise without_plan(outcome.status)
    assert outcome.verdict is not None
    return Base(loaded, outcome.plan, season_part(outcome.verdict))


def _lived(stands: Base, there: SeasonToday, rules: Sequence[Rule], settings: Settings) -> Base:
    """Return the season with what was done in it, its cost worked out anew where that differs."""
    loaded, plan, proven = there.loaded, there.lived.plan, stands.proven
    if proven is not None and there.lived.recorded:
        was = replace(told_before(proven), bound=0.0)
        rates, close = settings.rates, settings.close
        proven = season_part(judged(loaded.season, rules, plan, was, rates, close))
    return Base(loaded, plan, proven)


def _show(base: Base, told: list[ToldChange], form: str) -> None:
    if form == "json":
        say_json(whatif_data(base, told))
    else:
        click.echo(whatif_text(base, told))


def _save(
    out: Path,
    loaded: Loaded,
    given: GivenChanges,
    told: ToldChange,
    settings: Settings,
    base: Path | None,
) -> None:
    """Save the changed plan, and beside it the scenario it was made for."""
    near, changed = told.answer.near, told.changed
    if near.plan is None:
        return
    document = document_of(changed.loaded, changed.rules, near.plan, near.verdict, settings.seed)
    if base is not None and changed.loaded.group:
        document = with_days_of(read_document(base), document)
    save(out, plan_bytes(document))
    write_season(out.with_suffix(".toml"), loaded, given.changes.edits)


def _leave(told: list[ToldChange]) -> None:
    statuses = [each.answer.near.status for each in told]
    if "clash" in statuses:
        raise click.exceptions.Exit(CLASH)
    if "out_of_time" in statuses:
        raise click.exceptions.Exit(OUT_OF_TIME)
