"""Groups of a scenario: the season and the rules of each, and whose plan a file holds."""

import hashlib
import json
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import click

from cli.files.changes_file import ChangedSeason
from cli.files.errors import InputError
from cli.files.plan_json import read_document
from cli.files.plan_xlsx import read_group
from cli.files.scenario_file import Loaded
from optimiser.domain.document import PlanDocument, WeekPart
from optimiser.domain.group import Group
from optimiser.groups.member import Member, member_of, members_of
from optimiser.rule import Rule

#: What the groups' table may say without changing a group's season.
NOT_IN_DIGEST = {"note", "weight"}
ALONE = (
    "This is the plan of one group, {group}, and it is looked at on its own: what it shares with "
    "the other groups may change. `groups` plans all of them together."
)


def read_members(loaded: Loaded, rules: Sequence[Rule]) -> list[Member]:
    """Return the groups of a scenario, the one that blocks are fitted to first.

    Raises
    ------
    InputError
        If it has none.
    """
    if not loaded.scenario.groups:
        raise InputError(
            loaded.path,
            "groups",
            "must be given for plans by group",
            "none",
            f"add tables such as [groups.starters] and [groups.squad] with match_share = 0.4; "
            f"groups: {', '.join(Group)}",
        )
    return members_of(loaded.season, rules, loaded.scenario.groups)


def loaded_for(loaded: Loaded, member: Member) -> Loaded:
    """Return the scenario as one group's own season, under the group's name."""
    settings = loaded.scenario.groups[Group(member.name)]
    own = settings.model_dump(mode="json", exclude=NOT_IN_DIGEST)
    text = json.dumps([loaded.digest, member.name, own], sort_keys=True)
    digest = hashlib.sha256(text.encode()).hexdigest()
    season = member.season.model_copy(update={"name": f"{loaded.season.name}, {member.name}"})
    return replace(loaded, season=season, digest=digest, group=member.name, calendar=loaded.season)


def as_planned(plan: Path, loaded: Loaded, rules: Sequence[Rule]) -> tuple[Loaded, Sequence[Rule]]:
    """Return the season and rules to read a plan file with: those of its group, if it has one.

    A plan of a group that the scenario does not have is left to be refused by its digest.

    Raises
    ------
    InputError
        If the file cannot be read.
    """
    group = _group_of(plan)
    if group not in loaded.scenario.groups:
        return loaded, rules
    found = member_of(loaded.season, rules, group, loaded.scenario.groups[Group(group)])
    return loaded_for(loaded, found), found.rules


def _group_of(plan: Path) -> str:
    """Return whose plan a file holds; a table in CSV cannot say."""
    if plan.suffix.lower() == ".json":
        return read_document(plan).scenario.group
    return read_group(plan) if plan.suffix.lower() == ".xlsx" else ""


def planned_alone(
    plan: Path, loaded: Loaded, rules: Sequence[Rule]
) -> tuple[Loaded, Sequence[Rule]]:
    """Return the same as `as_planned`; that a group is looked at without the others is told."""
    own, kept = as_planned(plan, loaded, rules)
    if own.group:
        click.echo(ALONE.format(group=own.group), err=True)
    return own, kept


def changed_alone(changed: ChangedSeason, group: str) -> ChangedSeason:
    """Return a changed season as one group's own; without a group, as it is."""
    if not group:
        return changed
    settings = changed.loaded.scenario.groups[Group(group)]
    member = member_of(changed.loaded.season, changed.rules, group, settings)
    home = {} if settings.travels else {"travel_hours": 0.0}
    pairs = tuple(
        (was and was.model_copy(update=home), now and now.model_copy(update=home))
        for was, now in changed.pairs
    )
    there = loaded_for(changed.loaded, member)
    return replace(changed, loaded=there, rules=member.rules, pairs=pairs)


def with_days_of(old: PlanDocument, new: PlanDocument) -> PlanDocument:
    """Return a later plan of a group with the shared days of the weeks that are as they were."""
    weeks = zip(old.weeks, new.weeks, strict=True)
    kept = tuple(
        week.model_copy(update={"days": before.days if _alike(before, week) else ()})
        for before, week in weeks
    )
    return new.model_copy(update={"weeks": kept})


def _alike(one: WeekPart, other: WeekPart) -> bool:
    return _choices(one) == _choices(other)


def _choices(week: WeekPart) -> tuple[object, ...]:
    cells = {key: (part.band, part.dose) for key, part in week.qualities.items()}
    return week.monday, week.fixtures, week.sessions, cells
