"""What holds a plan back, in words."""

from collections.abc import Sequence

from cli.render.signs import DOSES
from cli.render.terminal import bullet
from cli.render.words import one_line
from optimiser.domain.season import Season
from optimiser.domain.week_number import number_of
from optimiser.domain.wording import counted, listed, weeks_listed
from optimiser.explain.limits import BACK, Limit, Way, in_the_way
from optimiser.response.readiness import most_important

#: Rules named for one week at most.
MOST = 3
#: Points from which the cost of matches is worth a word, and a step that no rule stops.
WORTH, FREE = 1.0, 0.2
#: Points that are not told as none.
LEAST = 0.05


def limits_text(season: Season, found: Sequence[Limit]) -> str:
    """Return the worst weeks and why they are not better."""
    if not found:
        return "Planned readiness is within a point of its target, or above it, in every week."
    lines = [bullet(limit_line(season, limit)) for limit in found]
    return "\n".join(["What limits the plan most:", *lines, bullet(_summary(found))])


def limit_line(season: Season, limit: Limit) -> str:
    """Return one week."""
    named = [f.name for f in season.weeks[limit.week].fixtures if f.priority == limit.priority]
    what = f", {limit.priority.value} match ({one_line(named[-1])})" if limit.priority else ""
    where = f"Week {number_of(limit.week)}{what}: planned readiness {limit.readiness:.1f}, "
    return " ".join([f"{where}target {limit.target:.0f}.", *_given(limit), _ways(season, limit)])


def _given(limit: Limit) -> list[str]:
    told = []
    if limit.match_cost >= WORTH:
        told.append(f"Earlier matches and travel cost {limit.match_cost:.1f} points.")
    if limit.closed:
        when = f"{counted(limit.back, 'open week')} before" if limit.back else "just before"
        told.append(f"A break of {counted(limit.closed, 'week')} ended {when}.")
    return told


def _ways(season: Season, limit: Limit) -> str:
    weeks = range(max(0, limit.week + 1 - BACK), limit.week + 1)
    where = weeks_listed(map(number_of, weeks))
    if not limit.tried:
        return f"No more work in {where} would help: all is done, or more would only tire."
    told = [_way(season, way) for way in limit.most if way.rules or way.points >= FREE]
    if not told:
        return f"A step more in {where} brings less than {FREE:.1f} points, and no rule stops it."
    return f"One step more would bring most: {'; '.join(told)}."


def _way(season: Season, way: Way) -> str:
    """Return one step, what it brings, and what speaks against it."""
    quality = season.qualities[way.step.quality]
    if way.step.kind == "band":
        what = f"{quality.name} {quality.bands[way.value].code}"
        what += f" instead of {quality.bands[way.value - 1].code}"
    else:
        what = f"{quality.name} {DOSES[way.value]} instead of {DOSES[way.value - 1]}"
    when = weeks_listed(map(number_of, way.step.weeks))
    stop = f"{listed(way.rules)} stop{'s' if len(way.rules) == 1 else ''}" if way.rules else ""
    said = f"{what} in {when} ({way.points:.1f} points), which {stop or 'no rule stops'}"
    if way.elsewhere is None or way.loss < LEAST:
        return said
    match = one_line(most_important(season.weeks[way.elsewhere]).name)
    where = weeks_listed([number_of(way.elsewhere)])
    return f"{said} and which takes {way.loss:.1f} from {match} ({where})"


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
        "A step is one dose, or one band through a block; one that no rule stops is most often "
        "more than is wanted there, or costs more in other weeks. What a rule stops is no price: "
        "one that decides earlier how high bands can stand, as blocks do, stops none of these and "
        "may cost the most. `prices` plans anew without each."
    )
    return " ".join(told)
