"""What the calendar gives: the background of a clash, which nobody is blamed for."""

from collections.abc import Iterator

from cli.render.words import one_line
from optimiser.domain.fixture import Priority
from optimiser.domain.season import Season
from optimiser.domain.wording import listed, weeks_listed
from optimiser.explain.clash import Clash

#: Closed weeks this close before the first demand still matter.
BACK = 8


def calendar_facts(season: Season, clash: Clash) -> str:
    """Return closed weeks and important fixtures around a clash, or an empty string."""
    weeks = [key.week for key in clash.keys if key.week is not None]
    if not weeks:
        return ""
    span = range(max(0, min(weeks) - BACK), max(weeks) + 1)
    facts = [*_closed(season, span), *_fixtures(season, range(min(weeks), max(weeks) + 1))]
    return f"Given: {'; '.join(facts)}." if facts else ""


def _closed(season: Season, span: range) -> Iterator[str]:
    closed = [season.weeks[week].number for week in span if season.weeks[week].closed]
    if closed:
        notes = {
            one_line(rest.note, 40)
            for week in season.weeks
            if week.number in closed
            for rest in week.breaks
            if rest.note
        }
        why = f" ({listed(sorted(notes))})" if notes else ""
        yield f"{weeks_listed(closed)} {'is' if len(closed) == 1 else 'are'} closed{why}"


def _fixtures(season: Season, span: range) -> Iterator[str]:
    for week in season.weeks[span.start : span.stop]:
        for fixture in week.fixtures:
            if fixture.priority is not Priority.LOW:
                told = one_line(fixture.competition or fixture.name, 40)
                yield f"week {week.number} has a {fixture.priority} match ({told})"
