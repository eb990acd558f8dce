"""The weeks of a club as text."""

import datetime as dt
from collections.abc import Mapping, Sequence

from cli.club import ClubWeek, PlannedSquad, faults_and_points
from cli.club_agenda import PUPILS, Agenda, AgendaEntry
from cli.render.terminal import filled, table_text
from cli.render.week_days import moved_text
from cli.render.words import one_line
from optimiser.days.shared import Pool, hours_in
from optimiser.days.week_plan import WeekPlan
from optimiser.domain.wording import counted

BAR = 20
USES = {"field": "field session", "gym": "gym session", "practice": "team practice"}
METHOD = (
    "The plans are those on file; --seasons plans them together where hours are scarce. A week in "
    "which the squads' own best days fit on what they share is taken as it is, which proves it; "
    "every other week is one model of all squads, with a bound of its own. Who has a higher number "
    "in priority gives way."
)


def summary_text(
    name: str, squads: Sequence[PlannedSquad], pools: Sequence[Pool], weeks: Sequence[ClubWeek]
) -> str:
    """Return how the year went: what did not fit, how full everything is, what is proven."""
    joint = [week for week in weeks if week.shared.joint]
    proven = sum(week.shared.proven for week in weeks)
    lines = [
        f"{one_line(name)}: {counted(len(squads), 'squad')}, {counted(len(weeks), 'week')}",
        "",
        _loads(pools, weeks),
        "",
        f"Weeks that fit as each squad wants them: {len(weeks) - len(joint)}; solved for all at "
        f"once: {len(joint)}; proven to be the best: {proven} of {len(weeks)}.",
        *_open(weeks),
        *_broken(squads, weeks),
        "",
        METHOD,
    ]
    return "\n".join(line if "\n" in line else filled(line) for line in lines)


def _loads(pools: Sequence[Pool], weeks: Sequence[ClubWeek]) -> str:
    """Return how full every room and person is, in the mean week and in the fullest."""
    rows = []
    for pool in pools:
        hours = [hours_in(week.booked, pool) for week in weeks]
        room = 7 * pool.holds * (pool.closes - pool.opens) / 60
        mean, most = sum(hours) / len(hours), max(hours)
        bar = "#" * round(BAR * most / room)
        fullest = weeks[hours.index(most)].monday
        rows.append(
            (one_line(pool.name), f"{mean:.1f}", f"{most:.1f}", f"{room:.0f}", fullest, bar)
        )
    heads = ("Shared", "h a week", "fullest", "open", "week of", "fullest week")
    return table_text(rows, heads, lined=True)


def _open(weeks: Sequence[ClubWeek]) -> list[str]:
    """Return how far the weeks that are not proven can be from the best."""
    left = [week for week in weeks if not week.shared.proven]
    if not left:
        return []
    spare = {week.monday: faults_and_points(week.shared.cost - week.shared.bound) for week in left}
    farthest = max(spare, key=lambda monday: spare[monday])
    faults, points = spare[farthest]
    things = f"{counted(faults, 'thing')} not kept and " if faults else ""
    return [
        f"The others are {things}{max(0.0, points):.1f} points from the best at most (week of "
        f"{farthest}); a day with two sessions costs a squad 10, an hour away from the usual start "
        "0.6. Both count by who gives way."
    ]


def _broken(squads: Sequence[PlannedSquad], weeks: Sequence[ClubWeek]) -> list[str]:
    found = []
    for week in weeks:
        for at, placed in zip(week.there, week.shared.placed, strict=True):
            if placed.faults:
                things = f"{placed.faults} thing{'' if placed.faults == 1 else 's'}"
                found.append(
                    f"- Week of {week.monday}: {one_line(squads[at].name)} gives way, {things} "
                    "not kept; --monday shows what."
                )
    return found


def closed_text(head: str, moves: Mapping[str, tuple[WeekPlan, WeekPlan]]) -> str:
    """Return what closing something moves, squad by squad, and what cannot be kept then.

    Parameters
    ----------
    moves
        Each squad's week before and after, by its name.
    """
    parts = [head]
    for name, (before, after) in moves.items():
        told = moved_text(before, after) or "All stays where it was."
        new = [fault for fault in after.faults if fault not in before.faults]
        lines = [f"{one_line(name)}: {told[:1].lower()}{told[1:]}", *(f"! {each}" for each in new)]
        parts.append("\n".join(lines))
    return "\n\n".join(parts)


def pool_text(monday: dt.date, agenda: Agenda) -> str:
    """Return who is in a room, or with a person, day by day."""
    rows = [
        (f"{each.date:%a %d %b}", each.times, one_line(each.who), f"{USES[each.use]}{_whose(each)}")
        for each in agenda.entries
        if each.start
    ]
    table = table_text(rows, ("Day", "At", "Squad", "What"), lined=True)
    return f"{one_line(agenda.name)}, week of {monday}\n\n{table if rows else 'Free all week.'}"


def _whose(entry: AgendaEntry) -> str:
    return f" ({PUPILS})" if entry.of_pupils else ""


def prices_text(
    pools: Sequence[Pool], saved: Sequence[Sequence[tuple[int, float]]], weeks: int
) -> str:
    """Return what more of each room, or person, would be worth.

    Parameters
    ----------
    saved
        By room: things kept more and points, with one squad more at once, opened an hour earlier,
        and closed an hour later.
    """
    rows = [
        (one_line(pool.name), *(_saved(*each) for each in gains))
        for pool, gains in zip(pools, saved, strict=True)
    ]
    heads = ("Shared", "one squad more at once", "an hour earlier", "an hour later")
    table = table_text(rows, heads, lined=True)
    head = f"Worth over the {counted(weeks, 'week')} that did not fit as each squad wants them:"
    about = (
        "Points of what squads like less of their days and hours, and things kept that were not."
    )
    return f"{head}\n\n{table}\n\n{about}"


def _saved(faults: int, points: float) -> str:
    kept = f", {counted(faults, 'thing')} kept" if faults else ""
    return f"{points:.1f}{kept}"
