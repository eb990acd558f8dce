"""Plan on in the season."""

import sys
from dataclasses import replace
from pathlib import Path
from typing import Any

import click

from cli.edits import edit_options, edits_of
from cli.files.changes_file import ChangedSeason, Origin, changed_season, read_changes
from cli.files.errors import InputError
from cli.files.log_csv import read_log
from cli.files.plan_file import read_plan
from cli.files.plan_json import read_document
from cli.files.safe_write import write_text
from cli.files.scenario_file import Loaded, read_scenario
from cli.files.scenario_rules import read_rules
from cli.main import CLASH, OUT_OF_TIME
from cli.render.json_text import json_text
from cli.render.replan import Asked, letters, replan_data, replan_text
from cli.solving import NO_PLAN, document_of, search_options, settings_of
from cli.squad_groups import changed_alone, planned_alone, with_days_of
from cli.why_not import why_not
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.setup_error import SetupError
from optimiser.replan.log import History, history
from optimiser.replan.near import Decided
from optimiser.replan.trade import TradeOff, trade_off
from optimiser.solve import Outcome, Settings

#: Deterministic limit of the doses of the best plan.
QUICK = 0.6


@click.command("replan")
@click.argument("scenario", type=click.Path(path_type=Path))
@click.argument("plan", type=click.Path(path_type=Path))
@click.option(
    "--week",
    "number",
    type=click.IntRange(1),
    required=True,
    help="First week that is still open; those before it stand.",
)
@click.option(
    "--done",
    type=click.Path(path_type=Path),
    help="What was done: CSV with week, quality, dose (none or missed if nothing), and if wanted "
    "band and load_au. What is not in it went as planned.",
)
@click.option(
    "--changes",
    "files",
    multiple=True,
    type=click.Path(path_type=Path),
    help="A TOML file of edits to the season; may be given again.",
)
@click.option("--other-season", is_flag=True, help="Take a plan that was made for another season.")
@click.option("--thorough", is_flag=True, help="Search as long as `plan` does.")
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    help="A folder; each plan is saved in it as A.json, B.json and so on.",
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
@search_options
def replan_command(
    scenario: Path,
    plan: Path,
    number: int,
    done: Path | None,
    files: tuple[Path, ...],
    other_season: bool,
    thorough: bool,
    out: Path | None,
    form: str,
    seed: int | None,
    fast: bool,
    seconds: float | None,
    **options: Any,
) -> None:
    """Plan on from --week in SCENARIO, of which PLAN is the plan so far.

    Weeks before --week stand as planned, or as done; what they break is not mended. Of the weeks
    after, several plans are given: from the one that changes the fewest cells and keeps every rule
    to the best one, each with what changes in words.

    Exit code 3: the rules clash from here on. 4: no plan was found in time.
    """  # fmt: skip
    loaded = read_scenario(scenario)
    own, rules = planned_alone(plan, loaded, read_rules(loaded))
    _check(loaded, number, out)
    old = read_plan(plan, own, rules, other_season=other_season)
    changed = changed_alone(_changed(loaded, files, options), own.group)
    past = _history(changed, old, number - 1, done)
    settings = settings_of(loaded, seed, fast, seconds)
    effort = settings if thorough else replace(settings, dose_effort=QUICK)
    trade = trade_off(past.season, changed.rules, old, Decided(past.past, past.weeks), effort)
    if trade.status != "planned":
        _no_plan(changed, trade.status)
    asked = _asked(changed, old, past)
    if out is not None:
        _save(out, changed, trade, settings, plan)
    if form == "json":
        digest = changed.loaded.digest
        click.echo(json_text(replan_data(asked, trade, digest), sys.stdout.encoding))
    else:
        click.echo(replan_text(asked, trade))


def _check(loaded: Loaded, number: int, out: Path | None) -> None:
    weeks = len(loaded.season.weeks)
    if number > weeks:
        raise click.BadParameter(f"must be 1 to {weeks} (got {number})", param_hint="--week")
    if out is not None and not out.is_dir():
        raise InputError(out, "", "must be a folder that is there", "none", "make it first")


def _changed(loaded: Loaded, files: tuple[Path, ...], options: dict[str, Any]) -> ChangedSeason:
    """Return the season after every file of changes, in order, and then the options."""
    given = [read_changes(path) for path in files]
    typed = edits_of(options)
    found = changed_season(loaded, "as written", (), Origin(str(loaded.path)))
    for each in [*given, *([typed] if typed else [])]:
        found = changed_season(found.loaded, each.changes.name, each.changes.edits, each.origin)
    return found


def _history(changed: ChangedSeason, old: Plan, weeks: int, done: Path | None) -> History:
    season = changed.loaded.season
    log = [] if done is None else read_log(done, season)
    try:
        return history(season, old, weeks, log)
    except SetupError as error:
        raise InputError.from_setup(done or "log", error) from None


def _asked(changed: ChangedSeason, old: Plan, past: History) -> Asked:
    """Return what was asked, with what the old plan breaks from here on."""
    lived = past.past
    broken: list[Breach] = [
        breach
        for rule in changed.rules
        if rule.price is None
        for breach in rule.audit(lived, past.season)
        if breach.week is None or breach.week >= past.weeks
    ]
    return Asked(changed.loaded.season, old, lived, past.weeks, tuple(broken))


def _no_plan(changed: ChangedSeason, status: str) -> None:
    click.echo(f"{changed.loaded.path}: no plan from here on: {NO_PLAN[status]}", err=True)
    if status == "clash":
        click.echo(why_not(changed.loaded.season, changed.rules), err=True)
    raise click.exceptions.Exit(CLASH if status == "clash" else OUT_OF_TIME)


def _save(
    out: Path, changed: ChangedSeason, trade: TradeOff, settings: Settings, plan: Path
) -> None:
    shared = read_document(plan) if changed.loaded.group else None
    for letter, choice in letters(trade).items():
        stages = trade.best.stages if choice.kind == "best" else ()
        outcome = Outcome("planned", choice.plan, stages, trade.seconds)
        document = document_of(changed.loaded, changed.rules, choice.plan, outcome, settings)
        document = with_days_of(shared, document) if shared else document
        write_text(out / f"{letter}.json", f"{json_text(document.model_dump(mode='json'))}\n")
    click.echo(f"Wrote {len(trade.choices)} plans into {out}.", err=True)
