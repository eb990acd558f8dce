"""Matches counted by date."""

from bisect import bisect_right
from itertools import pairwise

from optimiser.domain.season import Season


def match_days(season: Season) -> list[int]:
    """Return the ordinal of every match day, rising, once a fixture."""
    return sorted(fixture.date.toordinal() for fixture in season.fixtures)


def busiest_seven(season: Season) -> list[int]:
    """Return, for each week, the most matches in any 7 days that end on a day of that week.

    Returns
    -------
    list of int
        One a week. Two matches six days apart count as two.
    """
    days = match_days(season)
    counts = []
    for week in season.weeks:
        monday = week.monday.toordinal()
        ends = range(monday, monday + 7)
        counts.append(max(bisect_right(days, end) - bisect_right(days, end - 7) for end in ends))
    return counts


def gaps(season: Season) -> list[tuple[int, int]]:
    """Return every pair of neighbouring match days, as ordinals; same-day matches count once."""
    return list(pairwise(sorted(set(match_days(season)))))
