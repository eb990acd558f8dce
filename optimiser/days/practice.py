"""Team practice on the days of a week."""

from collections.abc import Sequence

from optimiser.days.day import Day, Kind, WeekOfDays
from optimiser.domain.scenario import PracticeWeek
from optimiser.domain.season import Week
from optimiser.domain.weekday import Weekday

#: Days taken first where nothing else is said (common practice, no source): the two that lead up
#: to a match with the most and the least work, then those around them.
BY_LABEL = ("MD-4", "MD-2", "MD-3", "MD-5", "MD-1", "MD+2", "MD-6", "MD+1")
#: The same far from any match.
BY_WEEKDAY = (1, 3, 0, 2, 4, 5, 6)


def practice_days(week: Week, days: WeekOfDays, usual: PracticeWeek) -> tuple[int, ...]:
    """Return the days (0 Monday to 6 Sunday) of a week's team practice, rising.

    Parameters
    ----------
    usual
        Practice of the week's phase; its own weekdays come first.
    """
    free = [day for day in days if day.kind not in (Kind.MATCH, Kind.CLOSED)]
    count = min(practice_count(week, usual), len(free))
    wanted = [day.number for day in usual.days]
    ranked = sorted(free, key=lambda day: _rank(day, wanted))
    return tuple(sorted(day.index for day in ranked[:count]))


def practice_count(week: Week, usual: PracticeWeek) -> int:
    """Return how many practices a week's practice load stands for."""
    one = usual.load(1)
    if week.practice_load == 0:
        return 0
    return max(1, round(week.practice_load / one)) if one else 1


def _rank(day: Day, wanted: Sequence[int]) -> tuple[int, int, int]:
    if day.index in wanted:
        return 0, wanted.index(day.index), 0
    resting = day.kind is Kind.REST or day.index == Weekday.SUNDAY.number
    named = BY_LABEL.index(day.label) if day.label in BY_LABEL else 4
    return 2 if resting else 1, named, BY_WEEKDAY.index(day.index)
