"""Plan on in the season."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, replace
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
from optimiser.domain.document import PlanDocument
from optimiser.domain.plan import Plan
from optimiser.domain.week_number import index_of
from optimiser.domain.wording import counted
from optimiser.joint_model.effort import THOROUGH, Settings
from optimiser.joint_model.verdict import Verdict
from optimiser.progress.carry_on import with_planned_past

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
@click.option(
    "--out", type=PATH, help="A folder; each plan is saved in it as A.json, B.json and so on."
)
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
    found = _plans_on(changed, there, old, effort)
    if found.trade.status != "planned":
        found = _nearest_on(found, here, effort, strict=strict)
        edits += found.given_up.edits(changed.loaded.scenario.rules) if found.given_up else []
        made = rewritten(loaded, edits).files if folder else {}
    if not found.trade.choices:
        raise click.exceptions.Exit(CLASH)
    chosen = _chosen(found.trade, letter) if letter else None
    _show(found, form)
    for question in questions:
        click.echo(question, err=True)
    if out is not None:
        _save(out, found, settings.seed, read_document(plan) if changed.loaded.group else None)
        if edits:
            write_season(out / SCENARIO, loaded, edits)
    if folder is not None and chosen is not None:
        words = "; ".join([f"plan {letter}", *map(changes_words, given)])
        put_in_force(folder, Action("replan", words), found.lived(chosen, settings.seed), made)
    if found.given_up is not None:
        raise click.exceptions.Exit(CLASH)


@dataclass(frozen=True)
class PlansOn:
    """The plans from one day on.

    Parameters
    ----------
    there
        The season after changes, on that day.
    old
        The plan so far.
    given_up
        What the rules of the plans give up, where those that were asked for clash.
    """

    changed: ChangedSeason
    there: SeasonToday
    old: Plan
    trade: TradeOff
    given_up: Nearest | None = None

    def lived(self, choice: WayOn, seed: int) -> PlanDocument:
        """Return the document of one of them as it is put in force."""
        rules, verdict = self.changed.rules, self._verdict(choice)
        document = document_in_progress(self.there, rules, choice.plan, verdict, seed)
        return self._marked(document, choice)

    def alone(self, choice: WayOn, seed: int, shared: PlanDocument | None) -> PlanDocument:
        """Return the document of one of them as it is saved; its days are those of ``shared``."""
        loaded, rules = self.there.loaded, self.changed.rules
        document = document_of(loaded, rules, choice.plan, self._verdict(choice), seed)
        return self._marked(with_days_of(shared, document) if shared else document, choice)

    def _verdict(self, choice: WayOn) -> Verdict | None:
        """Return what is proven of a choice: of the best alone anything is."""
        return self.trade.best.verdict if choice.kind == "best" else None

    def _marked(self, document: PlanDocument, choice: WayOn) -> PlanDocument:
        return self.given_up.marked(document, choice.plan) if self.given_up else document


def _plans_on(changed: ChangedSeason, there: SeasonToday, old: Plan, effort: Settings) -> PlansOn:
    """Return the plans from the day it is on."""
    stands = with_planned_past(there.lived.plan, old, there.lived.weeks)
    found = trade_off(there.loaded.season, changed.rules, stands, _decided(there), effort)
    return PlansOn(changed, there, old, found)


def _nearest_on(clashing: PlansOn, here: SeasonToday, effort: Settings, *, strict: bool) -> PlansOn:
    """Return the plans from the day it is on, with what has to be given up for any."""
    changed, there = clashing.changed, clashing.there
    nearest = nearest_or_exit(
        there.loaded, changed.rules, clashing.trade.status, strict=strict, decided=_decided(there)
    )
    changed = _conceded(changed, nearest)
    found = _plans_on(changed, changed_progress(here, changed.loaded), clashing.old, effort)
    return replace(found, given_up=nearest)


def _decided(there: SeasonToday) -> Decided:
    return there.decided or Decided(there.lived.plan, 0)


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


def _show(found: PlansOn, form: str) -> None:
    asked = _asked(found)
    if form == "json":
        say_json(replan_data(asked, found.trade, found.changed.loaded.digest))
    else:
        click.echo(replan_text(asked, found.trade))


def _asked(found: PlansOn) -> TradeAsked:
    """Return what was asked, with what the old plan breaks from here on."""
    season, lived = found.there.loaded.season, found.there.lived
    broken = tuple(
        breach
        for rule in found.changed.rules
        if rule.price is None
        for breach in rule.audit(lived.plan, season)
        if breach.week is None or breach.week >= lived.weeks
    )
    first = found.trade.choices[0].plan
    given_up = found.given_up.concessions(first) if found.given_up else ()
    return TradeAsked(season, found.old, lived.plan, lived.weeks, broken, given_up)


def _save(out: Path, found: PlansOn, seed: int, shared: PlanDocument | None) -> None:
    for letter, choice in letters(found.trade).items():
        write_bytes(out / f"{letter}.json", plan_bytes(found.alone(choice, seed, shared)))
    click.echo(f"Wrote {counted(len(found.trade.choices), 'plan')} into {out}.", err=True)
