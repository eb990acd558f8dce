"""Weeks for testing again, and their days.

Every 6 to 12 weeks, in a lighter week and never in a taper, at least 72 h after a match and 96 h
before the next, in the second half of the week where a day allows it (common practice, no source).
"""

import datetime as dt
from collections.abc import Collection, Sequence

from optimiser.domain.season import Season

#: Fewest and most weeks from one retest to the next.
APART = (6, 12)
#: Days after a match and before the next one.
AFTER, BEFORE = 3, 4
#: First day of the second half of a week, from 0.
SECOND_HALF = 3


def retest_days(season: Season, index: int) -> tuple[dt.date, ...]:
    """Return the days of a week on which tests may stand, those of its second half if any do."""
    week = season.weeks[index]
    if week.closed:
        return ()
    matches = [fixture.date for fixture in season.fixtures]
    days = [
        day
        for day in (week.monday + dt.timedelta(days=step) for step in range(6))
        if not any(-AFTER < (match - day).days < BEFORE for match in matches)
        and not any(b.first <= day <= b.last for b in week.breaks)
    ]
    late = [day for day in days if day.weekday() >= SECOND_HALF]
    return tuple(late or days)


def retest_weeks(
    season: Season, lighter: Collection[int], tapers: Collection[int]
) -> tuple[int, ...]:
    """Return the weeks (from 0) to test in.

    The last one that fits within the longest gap; where none does, the first one after it.

    Parameters
    ----------
    lighter, tapers
        Weeks that the rules mark so.
    """
    fit = [week for week in sorted(lighter) if week not in tapers and retest_days(season, week)]
    found: list[int] = []
    while True:
        week = _next(fit, found[-1] if found else -1)
        if week is None:
            return tuple(found)
        found.append(week)


def _next(fit: Sequence[int], last: int) -> int | None:
    least, most = last + APART[0], last + APART[1]
    near = [week for week in fit if least <= week <= most]
    return near[-1] if near else next((week for week in fit if week > most), None)


def retest_words(days: Sequence[dt.date]) -> str:
    """Say it on a card."""
    told = " or ".join(f"{day:%a %d %b}" for day in days)
    return (
        f"retest week: jumps, sprints and one heavy lift on {told}, rested and after a full "
        "warm-up; jump and sprint tests may stand in for a session"
    )
