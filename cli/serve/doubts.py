"""Changes that can be made but may be slips: what to ask before they are."""

import datetime as dt
from collections.abc import Iterator, Sequence

from cli.render.clean_text import clean
from optimiser.domain.edits import Add, AddBreak, Close, Drop, Edit, Move, Rank
from optimiser.domain.fixture import Fixture, Priority
from optimiser.domain.season import Season

#: Days from a match within which another one is unusual.
NEAR = 1
#: Matches of one week beyond which it is asked about, and days from one great match to another.
MOST_A_WEEK, GREAT_APART = 2, 7


def doubts(before: Season, after: Season, edits: Sequence[Edit]) -> list[str]:
    """Return questions about edits, in words; none if nothing is unusual.

    Parameters
    ----------
    before, after
        The season as it was and as the edits make it.
    """
    found: dict[str, None] = {}
    for edit in edits:
        for words in _doubts(before, after, edit):
            found[clean(words)] = None
    return list(found)


def _doubts(before: Season, after: Season, edit: Edit) -> Iterator[str]:
    match edit:
        case Move() if edit.to != edit.date:
            yield from _on_day(after, edit.to)
        case Add():
            yield from _on_day(after, edit.date)
        case Drop():
            great = [f for f in before.fixtures if f.date == edit.date and f.priority.great]
            for fixture in great:
                yield f"{fixture.name} on {_day(edit.date)} is a {fixture.priority.value} match."
        case Rank() if edit.priority is Priority.PEAK:
            peaks = [f for f in after.fixtures if f.priority is Priority.PEAK]
            if len(peaks) > 2:
                yield f"The season then has {len(peaks)} peaks; one or two can be peaked for."
        case Close() | AddBreak(kind="rest"):
            yield from _closed(after, edit.first, edit.last)


def _on_day(season: Season, day: dt.date) -> Iterator[str]:
    """Ask about a match on a day: its neighbours, closed days, a crowded week, great ones near."""
    week = season.weeks[(day - season.weeks[0].monday).days // 7]
    here = next(f for f in week.fixtures if f.date == day)
    for other in season.fixtures:
        apart = abs((other.date - day).days)
        if 0 < apart <= NEAR:
            when = "after" if other.date > day else "before"
            yield f"{other.name} is played the day {when}, on {_day(other.date)}."
        elif NEAR < apart < GREAT_APART and other.priority.great and here.priority.great:
            yield (
                f"{other.name}, also a {other.priority.value} match, is only {apart} days away: "
                "both share one peak."
            )
    if any(item.kind == "rest" and item.first <= day <= item.last for item in week.breaks):
        yield f"{_day(day)} lies in days that are closed: the squad plays and does not train."
    if len(week.fixtures) > MOST_A_WEEK:
        yield f"Week {week.number} then has {len(week.fixtures)} matches."


def _closed(season: Season, first: dt.date, last: dt.date) -> Iterator[str]:
    playing = [f for f in season.fixtures if first <= f.date <= last]
    if playing:
        told = ", ".join(_named(fixture) for fixture in playing[:3])
        more = f" and {len(playing) - 3} more" if len(playing) > 3 else ""
        yield f"On these days are matches: {told}{more}. The squad would play and not train."


def _named(fixture: Fixture) -> str:
    return f"{fixture.name} ({_day(fixture.date)})"


def _day(day: dt.date) -> str:
    return day.isoformat()  # the page writes dates as its reader does
