"""Plan on in the season."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import click

from cli.edits import edit_options, edits_of
from cli.files.changes_file import (
    ChangedSeason,
    GivenChanges,
    Origin,
    changed_season,
    read_changes,
)
from cli.files.errors import InputError
from cli.files.plan_file import read_plan
from cli.files.plan_json import read_document
from cli.files.safe_write import write_bytes
from cli.files.scenario_file import Loaded, read_scenario
from cli.files.scenario_rules import read_rules
from cli.main import CLASH
from cli.nearest import Nearest, nearest_or_exit
from cli.options import (
    FROM_ONE,
    PATH,
    format_option,
    other_season_option,
    out_option,
    search_options,
    strict_option,
    thorough_option,
)
from cli.render.replan import TradeAsked, letters, replan_data, replan_text
from cli.saying import need, say_json
from cli.season.applying import folder_to_apply, put_in_force
from cli.season.argument import plan_argument, season_argument, stands_in_force
from cli.season.attendance import questions_of_absences
from cli.season.changing import changed_progress, changes_words, check_edits_ahead, write_season
from cli.season.commit import Action
from cli.season.documents import document_in_progress
from cli.season.done_csv import read_done
from cli.season.folder import SCENARIO, folder_of
from cli.season.plan_bytes import plan_bytes
from cli.season.progress import SeasonToday, check_ahead, on_day, progress
from cli.season.rewrite import rewritten
from cli.solving import document_of, settings_of
from cli.squad_groups import changed_alone, planned_alone, with_days_of
from optimiser.change.decided import Decided
from optimiser.change.trade import TradeOff, WayOn, trade_off
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.week_number import index_of
from optimiser.domain.wording import counted
from optimiser.joint_model.effort import THOROUGH, Settings
from optimiser.joint_model.verdict import Verdict
from optimiser.progress.carry_on import with_planned_past
from optimiser.rule import Rule

ONE_DAY = dt.timedelta(days=1)


@click.command("replan")
@season_argument
@plan_argument
@click.option(
    "--week",
    "number",
    type=FROM_ONE,
    help="First week that is still open; those before it stand. In a season folder the day says "
    "it.",
)
@click.option(
    "--done",
    type=PATH,
    help="What was done, for a scenario that stands alone: a CSV as done.csv of a season folder. "
    "What is not in it went as planned.",
)
@click.option(
    "--changes",
    "files",
    multiple=True,
    type=PATH,
    help="A TOML file of edits to the season; may be given again.",
)
@other_season_option
@click.option(
    "--apply",
    "letter",
    metavar="LETTER",
    help="Put plan A, B and so on in force in the season folder, with its changes; see undo.",
)
@thorough_option
@strict_option
@out_option("A folder; each plan is saved in it as A.json, B.json and so on.")
@format_option("table", "json")
@edit_options
@search_options
def replan_command(
    scenario: Path,
    plan: Path,
    number: int | None,
    done: Path | None,
    letter: str | None,
    files: tuple[Path, ...],
    other_season: bool,
    thorough: bool,
    out: Path | None,
    form: str,
    seed: int | None,
    fast: bool,
    seconds: float | None,
    strict: bool,
    **options: Any,
) -> None:
    """Plan on from --week in SCENARIO, of which PLAN is the plan so far.

    Weeks before --week stand as planned, or as done; what they break is not mended. Of the weeks
    after, several plans are given: from the one that changes the fewest cells and keeps every rule
    to the best one, each with what changes in words.

    Exit code 3: the rules clash from here on; the clash is shown, and then the nearest plans with
    what they give up, unless --strict. 4: no plan was found in time.
    """  # fmt: skip
    loaded = read_scenario(scenario)
    own, rules = planned_alone(plan, loaded, read_rules(loaded))
    _check(loaded, number, out)
    folder = folder_to_apply(own) if letter else None
    # people edit the files of a season folder; what has to change for it is what is asked here
    edited = other_season or stands_in_force(scenario, plan)
    old = read_plan(plan, own, rules, other_season=edited)
    here = _on_day(own, old, number, done)
    given = _given(files, options)
    for each in given:
        check_edits_ahead(each, here)
    changed = changed_alone(_changed(loaded, given), own.group)
    there = changed_progress(here, changed.loaded)
    edits = [edit for each in given for edit in each.changes.edits]
    # before the search, so that it is told what cannot be written while nothing is lost
    made = rewritten(loaded, edits).files if folder and edits else {}
    settings = settings_of(loaded, seed, fast, seconds)
    effort = replace(settings, close=THOROUGH) if thorough else settings
    questions = questions_of_absences(there.loaded, there.day)
    trade = _traded(there, changed.rules, old, effort)
    nearest = None
    if trade.status != "planned":
        status, stands = trade.status, _decided(there)
        nearest = nearest_or_exit(
            there.loaded, changed.rules, status, strict=strict, decided=stands
        )
        edits += nearest.edits(changed.loaded.scenario.rules)
        made = rewritten(loaded, edits).files if folder else {}
        changed = _conceded(changed, nearest)
        there = changed_progress(here, changed.loaded)
        trade = _traded(there, changed.rules, old, effort)
    if not trade.choices:
        raise click.exceptions.Exit(CLASH)
    asked = _asked(changed, old, there, nearest, trade.choices[0].plan)
    chosen = _chosen(trade, letter) if letter else None
    if form == "json":
        say_json(replan_data(asked, trade, changed.loaded.digest))
    else:
        click.echo(replan_text(asked, trade))
    for question in questions:
        click.echo(question, err=True)
    if out is not None:
        lived = replace(changed, loaded=there.loaded)
        _save(out, lived, trade, settings, plan, nearest)
        if edits:
            write_season(out / SCENARIO, loaded, edits)
    if folder is not None and chosen is not None:
        verdict = _verdict(trade, chosen)
        document = document_in_progress(there, changed.rules, chosen.plan, verdict, settings.seed)
        document = nearest.marked(document, chosen.plan) if nearest else document
        words = "; ".join([f"plan {letter}", *map(changes_words, given)])
        put_in_force(folder, Action("replan", words), document, made)
    if nearest is not None:
        raise click.exceptions.Exit(CLASH)


def _decided(there: SeasonToday) -> Decided:
    return there.decided or Decided(there.lived.plan, 0)


def _traded(there: SeasonToday, rules: Sequence[Rule], old: Plan, effort: Settings) -> TradeOff:
    """Return the plans from the day it is on."""
    stands = with_planned_past(there.lived.plan, old, there.lived.weeks)
    return trade_off(there.loaded.season, rules, stands, _decided(there), effort)


def _verdict(trade: TradeOff, chosen: WayOn) -> Verdict | None:
    """Return what is proven of a choice: of the best alone anything is."""
    return trade.best.verdict if chosen.kind == "best" else None


def _conceded(changed: ChangedSeason, nearest: Nearest) -> ChangedSeason:
    """Return a season with what its nearest plan gives up."""
    edits = nearest.edits(changed.loaded.scenario.rules)
    found = changed_season(changed.loaded, changed.name, edits, Origin(str(changed.loaded.path)))
    # of a group's own season the scenario is that of all
    loaded = changed.loaded if changed.loaded.group else found.loaded
    return replace(changed, loaded=loaded, rules=tuple(nearest.rules))


def _chosen(trade: TradeOff, letter: str) -> WayOn:
    """Return the plan of a letter."""
    plans = letters(trade)
    found = plans.get(letter.strip().upper())
    if found is None:
        told = f"must be one of {', '.join(plans)} (got {letter!r})"
        raise click.BadParameter(told, param_hint="--apply")
    return found


def _on_day(loaded: Loaded, old: Plan, number: int | None, done: Path | None) -> SeasonToday:
    """Return the season on the day it is, or on the Monday of the first week that is open."""
    folder = folder_of(loaded.path)
    if folder is not None:
        need(done is None, f"{folder.path} has its own done.csv; leave --done out")
        need(number is None, "a season folder knows the day; give --today instead of --week")
        there = progress(loaded, old)
        check_ahead(there)
        return there
    if number is None:
        raise click.UsageError("--week says from where a scenario that stands alone is planned on")
    first = loaded.season.weeks[index_of(number)].monday
    sessions = [] if done is None else read_done(done, loaded.season, first - ONE_DAY)
    if done is not None and not done.exists():
        raise InputError(done, "", "must exist", "no such file", "check its name and folder")
    return on_day(loaded, old, sessions, first)


def _check(loaded: Loaded, number: int | None, out: Path | None) -> None:
    weeks = len(loaded.season.weeks)
    if number is not None and number > weeks:
        raise click.BadParameter(f"must be 1 to {weeks} (got {number})", param_hint="--week")
    if out is not None and not out.is_dir():
        raise InputError(out, "", "must be a folder that is there", "none", "make it first")


def _given(files: tuple[Path, ...], options: dict[str, Any]) -> list[GivenChanges]:
    """Return the changes of every file, in order, and then those given as options."""
    typed = edits_of(options)
    return [*map(read_changes, files), *([typed] if typed else [])]


def _changed(loaded: Loaded, given: Sequence[GivenChanges]) -> ChangedSeason:
    """Return the season after all changes, in order."""
    found = changed_season(loaded, "as written", (), Origin(str(loaded.path)))
    for each in given:
        found = changed_season(found.loaded, each.changes.name, each.changes.edits, each.origin)
    return found


def _asked(
    changed: ChangedSeason, old: Plan, there: SeasonToday, nearest: Nearest | None, first: Plan
) -> TradeAsked:
    """Return what was asked, with what the old plan breaks from here on."""
    lived, weeks = there.lived.plan, there.lived.weeks
    broken: list[Breach] = [
        breach
        for rule in changed.rules
        if rule.price is None
        for breach in rule.audit(lived, there.loaded.season)
        if breach.week is None or breach.week >= weeks
    ]
    given_up = nearest.concessions(first) if nearest else ()
    return TradeAsked(there.loaded.season, old, lived, weeks, tuple(broken), given_up)


def _save(
    out: Path,
    changed: ChangedSeason,
    trade: TradeOff,
    settings: Settings,
    plan: Path,
    nearest: Nearest | None,
) -> None:
    shared = read_document(plan) if changed.loaded.group else None
    for letter, choice in letters(trade).items():
        loaded, rules, verdict = changed.loaded, changed.rules, _verdict(trade, choice)
        document = document_of(loaded, rules, choice.plan, verdict, settings.seed)
        document = with_days_of(shared, document) if shared else document
        document = nearest.marked(document, choice.plan) if nearest else document
        write_bytes(out / f"{letter}.json", plan_bytes(document))
    click.echo(f"Wrote {counted(len(trade.choices), 'plan')} into {out}.", err=True)
