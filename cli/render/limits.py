"""What holds a plan back, in words."""

import textwrap
from collections.abc import Sequence

from cli.render.words import one_line
from optimiser.domain.season import Season
from optimiser.explain.limits import BACK, Limit, in_the_way

WIDTH = 100
#: Rules named for one week at most.
MOST = 3
#: Points from which the cost of matches is worth a word.
WORTH = 1.0


def limits_text(season: Season, found: Sequence[Limit]) -> str:
    """Return the worst weeks and why they are not better."""
    if not found:
        return "Planned readiness is within a point of its target, or above it, in every week."
    lines = [_bullet(limit_line(season, limit)) for limit in found]
    return "\n".join(["What limits the plan most:", *lines, _bullet(_summary(found))])


def limit_line(season: Season, limit: Limit) -> str:
    """Return one week."""
    named = [f.name for f in season.weeks[limit.week].fixtures if f.priority == limit.priority]
    what = f", {limit.priority.value} match ({one_line(named[-1])})" if limit.priority else ""
    where = f"Week {limit.week + 1}{what}: planned readiness {limit.readiness:.1f}, "
    return " ".join([f"{where}target {limit.target:.0f}.", *_given(limit), _rules(limit)])


def _given(limit: Limit) -> list[str]:
    told = []
    if limit.match_cost >= WORTH:
        told.append(f"Earlier matches and travel cost {limit.match_cost:.1f} points.")
    if limit.closed:
        when = f"{_count(limit.back, 'open week')} before" if limit.back else "just before"
        told.append(f"A break of {_count(limit.closed, 'week')} ended {when}.")
    return told


def _rules(limit: Limit) -> str:
    first = max(1, limit.week + 2 - BACK)
    where = f"weeks {first}-{limit.week + 1}" if first <= limit.week else f"week {limit.week + 1}"
    if not limit.tried:
        return f"No more work in {where} would help: all is done, or more would only tire."
    start = f"There are {_count(limit.tried, 'way')} to do a little more in {where} that would help"
    if limit.tried == 1:
        start = f"There is one way to do a little more in {where} that would help"
    free = f"{limit.free or 'none'} break{'s' if limit.free == 1 else ''} no rule"
    return f"{start}: {'; '.join([*_stops(limit), free])}."


def _stops(limit: Limit) -> list[str]:
    """Return what single rules stop, and what several stop together."""
    alone = [each for each in limit.stopped_by if each.alone]
    told = [", ".join(f"{each.rule} alone stops {each.alone}" for each in alone[:MOST])]
    several = limit.tried - limit.free - sum(each.alone for each in alone)
    if several:
        rules = sorted(limit.stopped_by, key=lambda each: each.alone - each.ways)
        names = [each.rule for each in rules if each.ways > each.alone][:MOST]
        told.append(f"several rules together stop {several} ({', '.join(names)})")
    return [each for each in told if each]


def _summary(found: Sequence[Limit]) -> str:
    stops = in_the_way(found)
    if not stops:
        return "No rule stands in the way of a little more there."
    alone = [each.rule for each in stops if each.alone]
    others = sorted((each for each in stops if not each.alone), key=lambda each: -each.ways)
    told = []
    if alone:
        told.append(f"In the way alone, most first: {', '.join(alone[:MOST])}.")
    if others:
        names = ", ".join(each.rule for each in others[:MOST])
        told.append(f"Only beside others: {names}; making one of them looser brings nothing.")
    told.append(
        "A little more is one dose, or one band through a block; what breaks no rule here can "
        "still cost more in another week. How often a rule stops it is no price: one that decides "
        "earlier how high bands can stand, as blocks do, stops none of these and may cost the "
        "most. `prices` plans anew without each."
    )
    return " ".join(told)


def _count(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"


def _bullet(words: str) -> str:
    return textwrap.fill(words, WIDTH, initial_indent="- ", subsequent_indent="  ")
