"""Days that can be meant but may be slips, for the match or the break that an edit puts there."""

import datetime as dt
from collections.abc import Iterator

from optimiser.domain.fixture import Fixture
from optimiser.domain.season import Season

#: Days from a match within which another one is unusual.
NEAR = 1
#: Matches of one week beyond which it is asked about, and days from one great match to another.
MOST_A_WEEK, GREAT_APART = 2, 7


def odd_match_day(season: Season, day: dt.date) -> Iterator[str]:
    """Yield what is odd about a match: its neighbours, closed days, a crowded week, great ones."""
    week = season.weeks[(day - season.weeks[0].monday).days // 7]
    here = next(f for f in week.fixtures if f.date == day)
    for other in season.fixtures:
        apart = abs((other.date - day).days)
        if 0 < apart <= NEAR:
            when = "after" if other.date > day else "before"
            yield f"{other.name} is played the day {when}, on {other.date}."
        elif NEAR < apart < GREAT_APART and other.priority.great and here.priority.great:
            yield (
                f"{other.name}, also a {other.priority.value} match, is only {apart} days away: "
                "both share one peak."
            )
    if any(item.kind == "rest" and item.first <= day <= item.last for item in week.breaks):
        yield f"{day} lies in days that are closed: the squad plays and does not train."
    if len(week.fixtures) > MOST_A_WEEK:
        yield f"Week {week.number} then has {len(week.fixtures)} matches."


def matches_while_closed(season: Season, first: dt.date, last: dt.date) -> Iterator[str]:
    """Yield which matches are played on days that are closed."""
    playing = [f for f in season.fixtures if first <= f.date <= last]
    if playing:
        told = ", ".join(map(_named, playing[:3]))
        more = f" and {len(playing) - 3} more" if len(playing) > 3 else ""
        yield f"On these days are matches: {told}{more}. The squad would play and not train."


def _named(fixture: Fixture) -> str:
    return f"{fixture.name} ({fixture.date})"
