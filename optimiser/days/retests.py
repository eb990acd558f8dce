"""Weeks for testing again, and their days.

Every 6 to 12 weeks, in a lighter week and never in a taper, at least 72 h after a match and 96 h
before the next, in the second half of the week where a day allows it (common practice, no source).
"""

import datetime as dt
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

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

    They are 6 to 12 weeks apart, from the first week on too, wherever such weeks can be chosen;
    else as few weeks as can be lie beyond that. Of equal choices the one with more tests in the
    second half of a week is taken, then the one with fewer tests, then with later ones.

    Parameters
    ----------
    lighter, tapers
        Weeks that the rules mark so.
    """
    best: dict[int, RetestWeeks] = {}
    for week in sorted(set(lighter) - set(tapers)):
        if days := retest_days(season, week):
            early = days[0].weekday() < SECOND_HALF
            ways = [(-1, RetestWeeks()), *best.items()]
            found = [way.and_in(week, last, early=early) for last, way in ways]
            if allowed := [way for way in found if way]:
                best[week] = min(allowed, key=RetestWeeks.order)
    ends = [way.ended(len(season.weeks)) for way in best.values()]
    return min(ends, key=RetestWeeks.order).weeks if ends else ()


@dataclass(frozen=True)
class RetestWeeks:
    """A choice of weeks so far.

    Parameters
    ----------
    late
        Weeks beyond the longest gap.
    early
        Tests in the first half of a week.
    """

    late: int = 0
    early: int = 0
    weeks: tuple[int, ...] = ()

    def and_in(self, week: int, last: int, *, early: bool) -> "RetestWeeks | None":
        """Return it with tests in one week more; None if that is too soon after ``last``."""
        gap = week - last
        if gap < APART[0]:
            return None
        late = self.late + max(0, gap - APART[1])
        return RetestWeeks(late, self.early + early, (*self.weeks, week))

    def ended(self, count: int) -> "RetestWeeks":
        """Return it with the gap up to the end of a season of so many weeks counted too."""
        return replace(self, late=self.late + max(0, count - self.weeks[-1] - APART[1]))

    def order(self) -> tuple[int, int, int, tuple[int, ...]]:
        """Return what the better of two choices has less of."""
        return self.late, self.early, len(self.weeks), tuple(-week for week in self.weeks)


def retest_words(days: Sequence[dt.date]) -> str:
    """Say it on a card."""
    told = " or ".join(f"{day:%a %d %b}" for day in days)
    return (
        f"retest week: jumps, sprints and one heavy lift on {told}, rested and after a full "
        "warm-up; jump and sprint tests may stand in for a session"
    )
