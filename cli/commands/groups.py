"""Plan a season for every group of the squad at once."""

import sys
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import click

from cli.days import week_maker, written_days
from cli.files.errors import InputError
from cli.files.own_work import read_library
from cli.files.safe_write import write_text
from cli.files.scenario_file import Loaded, read_scenario
from cli.files.scenario_rules import read_rules
from cli.files.squad import lists_nobody, read_squad
from cli.main import CLASH, OUT_OF_TIME
from cli.options import format_option
from cli.render.care import season_care_text
from cli.render.groups import GroupPlan, clash_words, groups_data, groups_text
from cli.render.json_text import json_text
from cli.render.progress import ProgressLine
from cli.render.signs import signs_for
from cli.season.applying import folder_to_apply, put_files
from cli.season.argument import season_argument
from cli.season.commit import Action
from cli.season.documents import document_in_progress
from cli.season.folder import GROUPS, Folder, folder_of
from cli.season.group_plans import GroupProgress, groups_begun
from cli.season.plan_bytes import plan_bytes
from cli.season.progress import tell_unplanned
from cli.solving import NO_PLAN, Watcher, document_of, search_options, settings_of
from cli.squad_groups import loaded_for, read_members
from optimiser.domain.document import PlanDocument
from optimiser.domain.group import Group
from optimiser.groups.days import Written, shared_days
from optimiser.groups.member import Member
from optimiser.groups.solve import GroupsOutcome, solve_groups
from optimiser.joint_model.effort import Settings


@click.command("groups")
@season_argument
@click.option(
    "--squad",
    "squad_path",
    type=click.Path(path_type=Path),
    help="The athletes, as .csv: each group is told with how many it has.",
)
@click.option(
    "-o",
    "--out",
    "folder",
    type=click.Path(path_type=Path, file_okay=False),
    help="Folder for one plan a group, such as starters.json; made if it is not there.",
)
@search_options
@format_option("table", "json")
@click.option(
    "--apply", "applied", is_flag=True, help="Put them in force in the season folder; see undo."
)
@click.option("--ascii", "plain", is_flag=True, help="Draw the table with plain signs only.")
def groups_command(
    scenario: Path,
    squad_path: Path | None,
    folder: Path | None,
    seed: int | None,
    fast: bool,
    seconds: float | None,
    form: str,
    applied: bool,
    plain: bool,
) -> None:
    """Find plans for the groups of SCENARIO: blocks, bands, sessions and days shared, own doses.

    A group that comes back (back = DATE) restarts as after any time off and climbs to the shared
    bands. Each [groups.NAME] table says what share of the matches a group plays (match_share, 0 to
    1); the load, the fatigue and the stimulus of matches follow it. Groups: starters, squad,
    non-playing, returning. In a season folder the plans stand in its folder groups, and in
    mid-season what each group did stands and what comes is planned for all of them together. Exit
    codes as for `plan`.
    """
    loaded = read_scenario(scenario)
    members = read_members(loaded, read_rules(loaded))
    season = folder_to_apply(loaded) if applied else folder_of(loaded.path)
    begun = groups_begun(loaded, members)
    members = [each.member for each in begun] if begun else members
    athletes = _athletes(loaded, squad_path, members)
    settings = settings_of(loaded, seed, fast, seconds)
    outcome = _solved(members, settings)
    if not outcome.plans:
        _no_plan(loaded, outcome)
    found = _documents(loaded, members, outcome, settings, athletes, begun)
    if folder is not None:
        _save(folder, found)
    if outcome.stopped:
        click.echo("Stopped by hand: these are the best plans so far.", err=True)
    if form == "json":
        click.echo(json_text(groups_data(found), sys.stdout.encoding))
    else:
        signs = signs_for(sys.stdout.encoding, plain=plain)
        click.echo(f"{groups_text(found, signs)}\n\n{season_care_text(loaded.season)}")
    if season is not None:
        if begun is None:
            tell_unplanned(loaded)
        _put(season, found, applied=applied)


def _put(folder: Folder, found: Sequence[GroupPlan], *, applied: bool) -> None:
    """Put plans in force if it was asked for, or if there are none yet."""
    if applied or not any(folder.group_plan(each.member.name).exists() for each in found):
        plans = {f"{GROUPS}/{each.member.name}.json": plan_bytes(each.document) for each in found}
        put_files(folder, Action("groups", ", ".join(each.member.name for each in found)), plans)
        return
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
    library = read_library(loaded)
    squad = read_squad(path, library.exercises, library.tags)
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
    raise click.exceptions.Exit(CLASH if outcome.status == "clash" else OUT_OF_TIME)


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
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise InputError.from_os(folder, error) from None
    for each in found:
        path = folder / f"{each.member.name}.json"
        write_text(path, f"{json_text(each.document.model_dump(mode='json'))}\n")
        click.echo(f"Wrote {path}.", err=True)
