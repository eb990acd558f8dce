"""A frame around a fixture list: where the season starts, how long it is, its phases."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from optimiser.domain.calendar_day import monday_of
from optimiser.domain.fixture import Fixture, Priority
from optimiser.domain.scenario import MOST_WEEKS, PhaseStart
from optimiser.domain.season import Phase
from optimiser.domain.setup_error import SetupError
from optimiser.domain.week_number import number_of
from optimiser.setup.calendar import PRE_SEASON_WEEKS, derive_phases

OFF_SEASON_WEEKS = 4


@dataclass(frozen=True)
class Frame:
    """What a fixture list says about its season.

    Parameters
    ----------
    first_monday
        First day of week 1.
    weeks
        Length of the season.
    phases
        Where each phase starts.
    """

    first_monday: dt.date
    weeks: int
    phases: tuple[PhaseStart, ...]


def frame_around(
    fixtures: Sequence[Fixture],
    *,
    off_season: int = OFF_SEASON_WEEKS,
    pre_season: int = PRE_SEASON_WEEKS,
    first_monday: dt.date | None = None,
    weeks: int | None = None,
) -> Frame:
    """Return the season around ``fixtures``, at least one.

    Parameters
    ----------
    off_season, pre_season
        Weeks before the first match; with ``first_monday`` given, pre-season takes what room
        there is and off-season the rest.
    first_monday
        First day; left out, it follows from the weeks before the first match.
    weeks
        Length; left out, the season ends with the week of the last match.

    Raises
    ------
    SetupError
        If a match lies outside, or the season is longer than a season may be.
    """
    dates = sorted(fixture.date for fixture in fixtures)
    start = first_monday or _start(dates[0], off_season + pre_season)
    needed = (dates[-1] - start).days // 7 + 1
    _check(dates, start, needed, weeks)
    length = weeks or needed
    with_match = sorted({(date - start).days // 7 for date in dates})
    return Frame(start, length, _starts(derive_phases(length, with_match, pre_season)))


def priorities_needed(fixtures: Sequence[Fixture]) -> dict[dt.date, Priority]:
    """Return the last match as ``high`` if none stands above ``low``, else nothing."""
    if any(fixture.priority is not Priority.LOW for fixture in fixtures):
        return {}
    return {max(fixture.date for fixture in fixtures): Priority.HIGH}


def _start(first: dt.date, weeks_before: int) -> dt.date:
    return monday_of(first) - dt.timedelta(weeks=weeks_before)


def _check(dates: Sequence[dt.date], start: dt.date, needed: int, weeks: int | None) -> None:
    if dates[0] < start:
        raise SetupError(
            "first match",
            f"must not come before the first Monday, {start}",
            str(dates[0]),
            "start earlier or drop the match",
        )
    if needed > MOST_WEEKS:
        raise SetupError(
            "last match",
            f"must come within {MOST_WEEKS} weeks of {start}",
            f"{dates[-1]}, week {needed}",
            "correct the date or split the list by season",
        )
    if weeks is not None and weeks < needed:
        raise SetupError(
            "last match",
            f"must lie in the {weeks} weeks from {start}",
            f"{dates[-1]}, week {needed}",
            f"ask for {needed} weeks or drop the match",
        )


def _starts(phases: Sequence[Phase]) -> tuple[PhaseStart, ...]:
    return tuple(
        PhaseStart(phase=phase, first_week=number_of(index))
        for index, phase in enumerate(phases)
        if index == 0 or phases[index - 1] is not phase
    )
