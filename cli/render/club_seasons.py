"""The seasons of a club's squads, planned together, as text."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from cli.render.terminal import filled, hanging, table_text
from cli.render.words import one_line
from optimiser.club.fitting_seasons import Together
from optimiser.club.ground import Ground
from optimiser.club.squad_season import SquadSeason, cost_of
from optimiser.days.shared import Pool
from optimiser.domain.plan import Plan
from optimiser.domain.week_number import number_of
from optimiser.domain.wording import counted, listed
from optimiser.response.readiness import UNITS

#: Rows of the table of scarce hours; the dearest are shown.
MOST_ROWS = 20
WEEKS_WIDTH = 36
NOTHING_SCARCE = (
    "Nothing that is shared is scarce: the squads' own best plans fit together in every week, by "
    "hours and by the week's timetable. Their seasons stay as each squad's own."
)
#: Weeks told one by one.
MOST_WEEKS = 6
#: What ended the search.
ENDED = {
    "done": "",
    "rounds": "The search ended after as many rounds as it has: these are the best plans it found.",
    "clock": "The time of --seconds is over: these are the best plans so far.",
    "hand": "It was stopped: these are the best plans so far.",
}
NOT_LOOKED_AT = (
    "Hours are enough in every week; whether each has a whole timetable was not known by then."
)
NO_MORE = " Nobody can give more up: their rules ask for what is left."
OF_HOURS = (
    "That bound is of hours: where the hours fit and the days do not, no plans may come near it."
)
NO_DAYS = "still no whole timetable"
#: Below it a price is no matter, in points.
LITTLE = 0.05


@dataclass(frozen=True)
class ClubSeasons:
    """The seasons of a club's squads, and what they share.

    Parameters
    ----------
    squads
        With their own best plans.
    found
        The plans that fit together.
    """

    name: str
    squads: Sequence[SquadSeason]
    pools: Sequence[Pool]
    grounds: Sequence[Ground]
    found: Together

    @property
    def own(self) -> list[Plan]:
        """Return the plans the squads have alone."""
        return [squad.plan for squad in self.squads]


def seasons_text(club: ClubSeasons) -> str:
    """Return what is scarce and what an hour of it is worth, who gives way, and how good it is."""
    found = club.found
    head = f"{one_line(club.name)}: the seasons of {counted(len(club.squads), 'squad')} together"
    if not found.scarce:
        told = NOTHING_SCARCE if found.looked_at else f"{ENDED[found.ended]} {NOT_LOOKED_AT}"
        return "\n\n".join([head, filled(told), *_weighed(club)])
    parts = [head, _reached(club), _pools(club), _scarce(club), _squads(club)]
    return "\n\n".join([*parts, *_weighed(club), *_over(club)])


def _reached(club: ClubSeasons) -> str:
    """Return how much did not fit, what fits now, and what ended the search."""
    found = club.found
    scarce, left = _mondays(club, found.scarce), _mondays(club, found.unfit)
    fits = "Now every week has a whole timetable."
    if left:
        named = ", ".join(map(str, left[:MOST_WEEKS])) + (" ..." if left[MOST_WEEKS:] else "")
        still = "has" if len(left) == 1 else "have"
        fits = f"Now {counted(len(left), 'week')} still {still} none (weeks of {named})."
        fits += NO_MORE if found.ended == "done" else ""
    if not found.looked_at:
        fits = "Their timetables were not looked at to the end."
    told = (
        f"In {counted(len(scarce), 'week')} the squads' own best plans do not fit together: too "
        f"few hours, or no whole timetable. {fits} {ENDED[found.ended]}".rstrip()
        + " "
        f"({counted(found.solved, 'season')} planned again, {counted(found.rounds, 'round')} of "
        f"giving hours up, {found.seconds:.0f} s.)"
    )
    return filled(told)


def _pools(club: ClubSeasons) -> str:
    """Return a line for each room or person that is scarce: in how many weeks, and its dearest."""
    found, grounds = club.found, club.grounds
    lines = []
    for number, pool in enumerate(club.pools):
        here = [at for at, ground in enumerate(grounds) if ground.pool == number]
        scarce = [at for at in here if at in found.scarce]
        if scarce:
            dearest = max(here, key=lambda at: found.prices[at])
            worth = ""
            if _points(club, dearest) >= LITTLE:
                told, monday = _worth(club, dearest).partition(";")[0], grounds[dearest].monday
                worth = f"; an hour more is worth {told} at most (week of {monday})"
            weeks = counted(len(scarce), "week")
            lines.append(f"- {one_line(pool.name)} is scarce in {weeks} of {len(here)}{worth}.")
    return "\n".join(hanging(line) for line in lines)


def _mondays(club: ClubSeasons, named: Sequence[int]) -> list[dt.date]:
    return sorted({club.grounds[at].monday for at in named})


def _scarce(club: ClubSeasons) -> str:
    """Return the hours that are scarce, and what one more is worth to whom it would help."""
    found = club.found
    listed_ = [at for at, price in enumerate(found.prices) if price or at in found.scarce]
    shown = sorted(listed_, key=lambda at: -found.prices[at])[:MOST_ROWS]
    rows = []
    for at in sorted(shown, key=lambda at: (club.grounds[at].pool, club.grounds[at].monday)):
        ground = club.grounds[at]
        practice = ground.minutes - ground.left
        hours = [
            ground.minutes,
            *(practice + ground.taken(club.squads, p) for p in (club.own, found.plans)),
        ]
        rows.append(
            (
                one_line(club.pools[ground.pool].name),
                ground.monday,
                *(f"{minutes / 60:.1f}" for minutes in hours),
                _worth(club, at),
            )
        )
    heads = ("Shared", "week of", "open h", "wanted h", "planned h", "an hour more is worth")
    table: str = table_text(rows, heads, lined=True)
    more = len(listed_) - len(shown)
    return f"{table}\n(and {counted(more, 'week')} that cost less)" if more else table


def _worth(club: ClubSeasons, at: int) -> str:
    """Return the price of an hour in points of the squad that gives way first."""
    if not club.found.prices[at]:
        return NO_DAYS if at in club.found.unfit else "the hours fit, the days do not"
    points, last = _points(club, at), _last(club, at)
    told = "little" if points < LITTLE else f"{points:.1f} points to {one_line(last.name)}"
    return f"{told}; {NO_DAYS}" if at in club.found.unfit else told


def _points(club: ClubSeasons, at: int) -> float:
    return 60 * club.found.prices[at] / _last(club, at).weight / UNITS


def _last(club: ClubSeasons, at: int) -> SquadSeason:
    """Return who of those that choose how much of it they use gives way first."""
    users = [club.squads[claim.squad] for claim in club.grounds[at].claims if claim.places]
    return min(reversed(users), key=lambda squad: squad.weight)


def _squads(club: ClubSeasons) -> str:
    """Return what each squad's season costs alone and together, and where it has fewer hours."""
    rows = []
    for at, squad in enumerate(club.squads):
        alone, now = cost_of(squad, squad.plan), cost_of(squad, club.found.plans[at])
        fewer = _fewer(club, at)
        hours = sum(fewer.values()) / 60
        each = f"{max(0, now - alone) / UNITS / hours:.1f}" if hours else "-"
        rows.append(
            (
                one_line(squad.name),
                f"{alone / UNITS:.1f}",
                f"{now / UNITS:.1f}",
                f"{hours:.1f}",
                each,
                _weeks(list(fewer)),
            )
        )
    heads = ("Squad", "points alone", "together", "h given up", "points an hour", "in its weeks")
    widths = [None, None, None, None, None, WEEKS_WIDTH]
    return table_text(rows, heads, lined=True, widths=widths)


def _fewer(club: ClubSeasons, squad: int) -> dict[int, int]:
    """Return the minutes that a squad has less of something than alone, by its weeks, from 1."""
    fewer: dict[int, int] = {}
    for ground in club.grounds:
        claim = ground.claim(squad)
        alone = ground.of(club.squads, club.own, squad)
        less = alone - ground.of(club.squads, club.found.plans, squad)
        if claim and less > 0:
            # a room and a coach may be taken by the same hours
            fewer[number_of(claim.week)] = max(less, fewer.get(number_of(claim.week), 0))
    return dict(sorted(fewer.items()))


def _weeks(weeks: Sequence[int]) -> str:
    return ", ".join(map(str, weeks)) or "-"


def _weighed(club: ClubSeasons) -> list[str]:
    """Return what the club costs and how much better other plans could be."""
    found = club.found
    spare = max(0.0, found.cost - found.bound) / UNITS
    weights = sorted({squad.weight for squad in club.squads}, reverse=True)
    by = ""
    if len(weights) > 1:
        names = [
            f"{listed([one_line(s.name) for s in club.squads if s.weight == weight])} {weight}"
            for weight in weights
        ]
        by = f", a point counted by who gives way last ({'; '.join(names)})"
    told = f"All seasons cost {found.cost / UNITS:.1f} points{by}."
    fits = "set of plans that keeps these rules and fits these hours"
    proof = f"No {fits} can be more than {100 * found.gap:.2f} % ({spare:.2f} points) better."
    if found.decided_by == "proof":
        proof = f"Proven best: no {fits} costs less."
    elif found.unfit or any(not found.prices[at] for at in found.scarce):
        proof = f"{proof} {OF_HOURS}"
    return ["\n".join(filled(line) for line in (told, proof))]


def _over(club: ClubSeasons) -> list[str]:
    found, grounds = club.found, club.grounds
    lines = [
        f"- Week of {grounds[at].monday}: {one_line(club.pools[grounds[at].pool].name)} has "
        f"{grounds[at].over(club.squads, found.plans) / 60:.1f} h too few for what the rules of "
        "its squads ask at least; open it longer, or give a rule a price."
        for at in found.over
    ]
    return ["\n".join(lines)] if lines else []
