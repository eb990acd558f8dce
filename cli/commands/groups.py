"""Plan a season for every group of the squad at once."""

import datetime as dt
import sys
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import click

from cli.days import week_maker, written_days
from cli.edits import edit_options, edits_of
from cli.files.changes_file import ChangedSeason, GivenChanges, Origin, changed_season
from cli.files.own_work import squad_at
from cli.files.safe_write import make_directory
from cli.files.scenario_file import Loaded, read_scenario
from cli.files.squad import lists_nobody
from cli.options import (
    apply_option,
    ascii_option,
    folder_option,
    format_option,
    search_options,
    squad_option,
)
from cli.render.care import season_care_text
from cli.render.groups import GroupPlan, clash_words, groups_data, groups_text
from cli.render.search_progress import ProgressLine
from cli.render.signs import signs_for
from cli.saying import save, say_json, without_plan
from cli.season.applying import folder_to_apply, put_files
from cli.season.argument import season_argument, today
from cli.season.attendance import questions_of_absences
from cli.season.changing import changes_words, check_edits_ahead
from cli.season.commit import Action
from cli.season.documents import document_in_progress
from cli.season.folder import GROUPS, Folder, folder_of
from cli.season.group_plans import GroupProgress, groups_begun
from cli.season.plan_bytes import plan_bytes
from cli.season.progress import tell_unplanned
from cli.season.rewrite import rewritten
from cli.solving import NO_PLAN, Watcher, document_of, settings_of
from cli.squad_groups import loaded_for, read_members
from optimiser.domain.document import PlanDocument
from optimiser.domain.group import Group
from optimiser.groups.days_together import Written, shared_days
from optimiser.groups.member import Member
from optimiser.groups.solve import GroupsOutcome, solve_groups
from optimiser.joint_model.effort import Settings


@click.command("groups")
@season_argument
@squad_option(": each group is told with how many it has.")
@folder_option("Folder for one plan a group, such as starters.json; made if it is not there.")
@search_options
@edit_options
@format_option("table", "json")
@apply_option("Put them in force in the season folder; see undo.")
@ascii_option
def groups_command(
    scenario: Path,
    squad_path: Path | None,
    out: Path | None,
    seed: int | None,
    fast: bool,
    seconds: float | None,
    form: str,
    applied: bool,
    plain: bool,
    **options: Any,
) -> None:
    """Find plans for the groups of SCENARIO: blocks, bands, sessions and days shared, own doses.

    A group that comes back (back = DATE) restarts as after any time off and climbs to the shared
    bands. Each [groups.NAME] table says what share of the matches a group plays (match_share, 0 to
    1); the load, the fatigue and the stimulus of matches follow it. Groups: starters, squad,
    non-playing, returning. In a season folder the plans stand in its folder groups, and in
    mid-season what each group did stands and what comes is planned for all of them together. Edits
    (--move, --add and so on) change the season first; --apply writes it with the plans. Exit codes
    as for `plan`.
    """
    loaded = read_scenario(scenario)
    edits = edits_of(options)
    season = folder_to_apply(loaded) if applied else folder_of(loaded.path)
    _only_told(edits, applied=applied, out=out)
    changed, files = _changed(loaded, edits)
    loaded, members = changed.loaded, read_members(changed.loaded, changed.rules)
    begun = groups_begun(loaded, members)
    if edits and begun:
        check_edits_ahead(edits, begun[0].there)
    members = [each.member for each in begun] if begun else members
    questions = _questions(loaded, members, today() if season else None)
    athletes = _athletes(loaded, squad_path, members)
    settings = settings_of(loaded, seed, fast, seconds)
    outcome = _solved(members, settings)
    if not outcome.plans:
        _no_plan(loaded, outcome)
    found = _documents(loaded, members, outcome, settings, athletes, begun)
    if out is not None:
        _save(out, found)
    if outcome.stopped:
        click.echo("Stopped by hand: these are the best plans so far.", err=True)
    if form == "json":
        say_json(groups_data(found))
    else:
        signs = signs_for(sys.stdout.encoding, plain=plain)
        click.echo(f"{groups_text(found, signs)}\n\n{season_care_text(loaded.season)}")
    for question in questions:
        click.echo(question, err=True)
    if season is None:
        return
    if begun is None:
        tell_unplanned(loaded)
    if applied or not (edits or season.groups_in_force()):
        words = [changes_words(edits)] if edits else []
        _put(season, found, "; ".join([*words, *(each.member.name for each in found)]), files)
    else:
        _tell_kept(season)


def _questions(loaded: Loaded, members: Sequence[Member], day: dt.date | None) -> list[str]:
    """Return what is to be asked about who of each group is away."""
    seasons = [replace(loaded_for(loaded, each), season=each.season) for each in members]
    return [question for own in seasons for question in questions_of_absences(own, day)]


def _only_told(edits: GivenChanges | None, *, applied: bool, out: Path | None) -> None:
    """Refuse plans of a changed season without that season beside them."""
    if edits and out is not None and not applied:
        raise click.UsageError(
            "plans of a changed season are kept with it: --apply writes both into the season "
            "folder; leave -o out to look at them only"
        )


def _changed(
    loaded: Loaded, given: GivenChanges | None
) -> tuple[ChangedSeason, Mapping[str, bytes]]:
    """Return the season after edits, and the files of a season folder that say so."""
    edits = given.changes.edits if given else ()
    origin = given.origin if given else Origin(str(loaded.path))
    found = changed_season(loaded, "as written", edits, origin)
    return found, rewritten(loaded, edits).files if edits else {}


def _put(
    folder: Folder, found: Sequence[GroupPlan], words: str, files: Mapping[str, bytes]
) -> None:
    """Put plans in force, with the files of their season where it was changed."""
    plans = {f"{GROUPS}/{each.member.name}.json": plan_bytes(each.document) for each in found}
    put_files(folder, Action("groups", words), {**files, **plans})
    if files and folder.plan.exists():
        click.echo(
            f"The plan of the squad is as it was: `seasonwright replan {folder.path} --apply A` "
            "plans it on.",
            err=True,
        )


def _tell_kept(folder: Folder) -> None:
    click.echo(
        f"The plans in {folder.groups} stay in force as they are; --apply puts these in their "
        "place.",
        err=True,
    )


def _athletes(
    loaded: Loaded, path: Path | None, members: Sequence[Member]
) -> dict[str, int] | None:
    """Return the number of athletes by group; those whose group has no plan are told."""
    own = loaded.scenario.squad_file
    path = path or (None if own is None else loaded.path.parent / own)
    if path is None or lists_nobody(path):
        return None
    squad = squad_at(path, loaded)
    names = {member.name for member in members}
    without = [athlete for athlete in squad.athletes if athlete.group not in names]
    if without:
        groups = ", ".join(dict.fromkeys(athlete.group for athlete in without))
        count = f"{len(without)} athlete{'' if len(without) == 1 else 's'}"
        told = f"{path}: {count} in groups without a plan of their own ({groups})."
        click.echo(told, err=True)
    return Counter(str(athlete.group) for athlete in squad.athletes)


def _solved(members: Sequence[Member], settings: Settings) -> GroupsOutcome:
    with Watcher(ProgressLine(sys.stderr)) as watcher:
        outcome = solve_groups(members, settings, watch=watcher.see)
    if not outcome.plans and outcome.stopped:
        raise KeyboardInterrupt
    return outcome


def _no_plan(loaded: Loaded, outcome: GroupsOutcome) -> None:
    why = NO_PLAN[outcome.status]
    if outcome.status == "clash":
        why += f" {clash_words(outcome.clashing)}"
    click.echo(f"{loaded.path}: no plans: {why}", err=True)
    raise without_plan(outcome.status)


def _documents(
    loaded: Loaded,
    members: Sequence[Member],
    outcome: GroupsOutcome,
    settings: Settings,
    athletes: dict[str, int] | None,
    begun: Sequence[GroupProgress] | None,
) -> list[GroupPlan]:
    """Return every group with its document; what is proven is proven of all of them together."""
    found = []
    stands: Sequence[GroupProgress | None] = begun or [None] * len(members)
    for member, plan, stand in zip(members, outcome.plans, stands, strict=True):
        verdict, seed = outcome.verdict, settings.seed
        if stand is None:
            own = loaded_for(loaded, member)
            document = document_of(own, member.rules, plan, verdict, seed)
        else:
            document = document_in_progress(stand.there, member.rules, plan, verdict, seed)
        group = loaded.scenario.groups[Group(member.name)]
        count = None if athletes is None else athletes.get(member.name, 0)
        found.append(GroupPlan(member, group, plan, document, count))
    makers = [
        week_maker(replace(loaded_for(loaded, member), season=member.season), member.rules)
        for member in members
    ]
    days = shared_days(makers, outcome.plans, members[0].over)
    return [
        each.with_document(_with_days(each.document, written, stand))
        for each, written, stand in zip(found, days, stands, strict=True)
    ]


def _with_days(
    document: PlanDocument, written: Written, stand: GroupProgress | None
) -> PlanDocument:
    """Return a plan with the days of its sessions; those of weeks that are over stand."""
    before = written_days(stand.path, stand.there.loaded.season) if stand else ()
    over = stand.member.over if stand else 0
    days = (*before[:over], *written[over:])
    weeks = tuple(
        week.model_copy(update={"days": there})
        for week, there in zip(document.weeks, days, strict=True)
    )
    return document.model_copy(update={"weeks": weeks})


def _save(folder: Path, found: Sequence[GroupPlan]) -> None:
    make_directory(folder)
    for each in found:
        save(folder / f"{each.member.name}.json", plan_bytes(each.document))
