"""Plans of several groups side by side, as text and as plain data."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any, Final

from cli.render.group_days import days_text
from cli.render.proof import season_lines
from cli.render.signs import LETTER, Signs
from cli.render.terminal import bullet, filled, ruled_lines
from cli.render.words import one_line
from optimiser.change.cells import changed_cells
from optimiser.domain.document import FixturePart, PlanDocument, WeekPart
from optimiser.domain.fixture import Priority
from optimiser.domain.group import GroupSettings
from optimiser.domain.plan import Plan
from optimiser.domain.week_number import number_of
from optimiser.domain.wording import counted, weeks_listed
from optimiser.groups.groups_apart import minutes_by_quality, weeks_apart
from optimiser.groups.member import Member

FORMAT: Final = "seasonwright.groups/1"
#: Signs in a line of words.
#: How a dose is drawn that is the first group's, and a week in which a group is away.
SAME, AWAY = "=", "away"


@dataclass(frozen=True)
class GroupPlan:
    """One group with its plan.

    Parameters
    ----------
    athletes
        How many the squad file has in it; None without one.
    """

    member: Member
    settings: GroupSettings
    plan: Plan
    document: PlanDocument
    athletes: int | None = None

    @property
    def clean(self) -> bool:
        """Return True if every rule that must hold is kept."""
        priced = {rule.name for rule in self.member.rules if rule.price is not None}
        return all(breach.rule in priced for breach in self.document.breaches)

    def with_document(self, document: PlanDocument) -> "GroupPlan":
        """Return it with another document."""
        return replace(self, document=document)


def groups_text(groups: Sequence[GroupPlan], signs: Signs) -> str:
    """Return what the groups have in common, then what sets them apart."""
    parts = [
        _heading(groups),
        _summary(groups),
        _changes(groups),
        _minutes(groups),
        _weeks(groups, signs),
        days_text([each.document for each in groups]),
        _matches(groups),
    ]
    return "\n\n".join(part for part in parts if part)


def clash_words(names: Sequence[str]) -> str:
    """Return which groups' own rules clash; if none do, it is what they share."""
    if not names:
        return "Each group has a plan on its own; what clashes is what they share."
    return f"Even alone there is none for {', '.join(names)}."


def groups_data(groups: Sequence[GroupPlan]) -> dict[str, Any]:
    """Return every group with its whole plan, as plain data."""
    first = groups[0].document
    proven = None if first.season is None else first.season.model_dump(mode="json")
    return {
        "format": FORMAT,
        "status": first.status,
        "season": proven,
        "groups": [
            {
                "name": each.member.name,
                **each.settings.model_dump(mode="json"),
                "athletes": each.athletes,
                "plan": each.document.model_dump(mode="json"),
            }
            for each in groups
        ],
    }


# --- heading --------------------------------------------------------------------------------


def _heading(groups: Sequence[GroupPlan]) -> str:
    first, season = groups[0].document, groups[0].member.season
    count = f"{len(groups)} groups" if len(groups) > 1 else "1 group"
    lines = [
        f"{one_line(season.name, 80)}: {count}, {len(season.weeks)} weeks from "
        f"{season.weeks[0].monday}, blocks, bands, sessions and their days shared",
        *(season_lines(first.season) if first.season else []),
    ]
    over = groups[0].member.over
    weeks = [breach.week for each in groups for breach in each.document.breaches]
    past = sum(week is not None and week <= over for week in weeks)
    ahead = len(weeks) - past
    if ahead:
        lines.append(f"Rules are broken in {counted(ahead, 'place')}; the plans list them.")
    if past:
        lines.append(
            f"What was done breaks rules in {counted(past, 'place')}, which nothing can mend; "
            "`audit` lists them."
        )
    return "\n".join(lines)


def _changes(groups: Sequence[GroupPlan]) -> str:
    """Say what stands in a season in progress, and what becomes of each group's plan so far."""
    over = groups[0].member.over
    if not over:
        return ""
    weeks = "Week 1 stands as it was" if over == 1 else f"Weeks 1 to {over} stand as they were"
    told = f"{weeks} done; those to come are planned for all groups together."
    return "\n".join([told, *(_changed(each) for each in groups)])


def _changed(each: GroupPlan) -> str:
    """Say in which weeks a group's plan is another than the one so far."""
    assert each.member.decided is not None
    found = changed_cells(each.member.decided.past, each.plan, each.member.over)
    numbers = sorted({number_of(change.week) for change in found})
    if not numbers:
        return f"- {each.member.name}: as its plan so far; no change is needed."
    told = f"{counted(len(found), 'choice')} changed, in {weeks_listed(numbers)}."
    return bullet(f"{each.member.name}: {told}")


def _summary(groups: Sequence[GroupPlan]) -> str:
    heads = ["Group", "Athletes", "Matches", "Weight", "From week", "Load", "Match score", "High"]
    rows = [_summary_row(each) for each in groups]
    if groups[0].athletes is None:
        heads, rows = [heads[0], *heads[2:]], [[row[0], *row[2:]] for row in rows]
    table = ruled_lines([heads], rows, ["left", *["right"] * (len(heads) - 1)])
    notes = [
        f"{each.member.name}: {one_line(each.settings.note, 200)}"
        for each in groups
        if each.settings.note
    ]
    told = (
        "Matches: share of the minutes played. Load: AU of a week from the one the group joins in, "
        "matches and\nteam practice counted in. Match score: planned readiness against its target, "
        "0-100."
    )
    return "\n".join([*table, *notes, *_joining(groups), told])


def _joining(groups: Sequence[GroupPlan]) -> list[str]:
    """Say how a group comes back."""
    said = (
        "joins in week {week} and restarts as after any time off; its bands climb from block to "
        "block to the squad's and never pass them. Waived for it: the length of the block it joins "
        "in, a return to general bands, and bands pinned for the squad; `audit` lists what comes "
        "of that. The medical team clears every athlete."
    )
    return [
        filled(f"{each.member.name}: {said.format(week=each.member.absent + 1)}")
        for each in groups
        if each.member.absent
    ]


def _summary_row(each: GroupPlan) -> list[str]:
    return [
        each.member.name,
        "" if each.athletes is None else str(each.athletes),
        f"{100 * each.settings.match_share:.0f} %",
        str(each.member.weight),
        str(each.member.absent + 1),
        f"{_mean_load(each):.0f}",
        _short(each.document.match.score),
        _short(each.document.match.at_high),
    ]


def _mean_load(each: GroupPlan) -> float:
    weeks = each.document.weeks[each.member.absent :]
    return sum(week.load.total for week in weeks) / len(weeks)


def _short(value: float | None) -> str:
    return "" if value is None else f"{value:.1f}"


def _minutes(groups: Sequence[GroupPlan]) -> str:
    season = groups[0].member.season
    made = [minutes_by_quality(each.member.season, each.plan) for each in groups]
    rows = [
        [quality.name, *(str(minutes[quality.key]) for minutes in made)]
        for quality in season.qualities
    ]
    heads = ["Minutes of own work", *(each.member.name for each in groups)]
    return "\n".join(ruled_lines([heads], rows, ["left", *["right"] * len(groups)]))


# --- weeks ----------------------------------------------------------------------------------


def _weeks(groups: Sequence[GroupPlan], signs: Signs) -> str:
    members = [each.member for each in groups]
    apart = weeks_apart(members, [each.plan for each in groups])
    if not apart:
        weeks = "every week to come" if members[0].over else "every week"
        return f"All groups have the same doses in {weeks}."
    heads = ["Week", "Monday", "Match", "f/g"]
    for each in groups:
        heads += [each.member.name, "load", "ready"]
    rows = [_row(groups, week, signs) for week in apart]
    align = ["right", "right", "left", "left", *["left", "right", "right"] * len(groups)]
    order = ", ".join(quality.name for quality in members[0].season.qualities)
    drawn = ", ".join(f"{sign} {dose}" for dose, sign in signs.short.items())
    return "\n".join(
        [
            "Weeks in which doses differ:",
            *ruled_lines([heads], rows, align),
            f"Doses of {order}, in this order.",
            f"{drawn}, {SAME} as {members[0].name}. f/g: field and gym sessions, the same for all.",
        ]
    )


def _row(groups: Sequence[GroupPlan], week: int, signs: Signs) -> list[str]:
    first = groups[0].document.weeks[week]
    row = [
        str(first.week),
        f"{first.monday.day} {first.monday:%b}",
        "".join(LETTER[fixture.priority] for fixture in first.fixtures),
        f"{first.sessions.field}/{first.sessions.gym}",
    ]
    for index, each in enumerate(groups):
        here = each.document.weeks[week]
        if here.block is None:
            row += [AWAY, "", ""]
            continue
        doses = _drawn(here, first if index else None, signs)
        row += [doses, str(here.load.total), f"{here.readiness:.0f}"]
    return row


def _drawn(here: WeekPart, first: WeekPart | None, signs: Signs) -> str:
    return "".join(
        SAME if first and part.dose == first.qualities[key].dose else signs.short[part.dose]
        for key, part in here.qualities.items()
    )


# --- matches --------------------------------------------------------------------------------


def _matches(groups: Sequence[GroupPlan]) -> str:
    """Return the readiness of every group at high and medium matches."""
    rows = [
        _match(groups, week, fixture)
        for week, part in enumerate(groups[0].document.weeks)
        for fixture in part.fixtures
        if fixture.priority is not Priority.LOW
    ]
    if not rows:
        return ""
    heads = ["High and medium matches", "", "Week", "Target", *(e.member.name for e in groups)]
    align = ["left", "left", "right", "right", *["right"] * len(groups)]
    return "\n".join([*ruled_lines([heads], rows, align), "Planned readiness 0-100 on the day."])


def _match(groups: Sequence[GroupPlan], week: int, fixture: FixturePart) -> list[str]:
    first = groups[0].document.weeks[week]
    ready = [
        AWAY
        if each.document.weeks[week].block is None
        else f"{each.document.weeks[week].readiness:.1f}"
        for each in groups
    ]
    name = one_line(fixture.opponent or fixture.competition or "match", 30)
    day = f"{LETTER[fixture.priority]} {fixture.date:%a} {fixture.date}"
    return [day, name, str(first.week), f"{first.target:.0f}", *ready]
