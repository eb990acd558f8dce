"""The frame of a season whose friendlies are part of pre-season."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from cli.files.errors import InputError
from cli.files.fixtures_priorities import is_friendly
from optimiser.domain.calendar_day import monday_of
from optimiser.domain.fixture import Fixture
from optimiser.domain.season import Phase
from optimiser.domain.setup_error import SetupError
from optimiser.setup.frame import Frame, frame_around


def frame_with_friendlies(
    path: Path,
    fixtures: Sequence[Fixture],
    *,
    off_season: int,
    pre_season: int,
    first_monday: dt.date | None = None,
    weeks: int | None = None,
) -> Frame:
    """Return the season around ``fixtures``, in season from the first that is no friendly.

    Pre-season is as long as asked for, or longer where the first friendly comes before it; where
    all are friendlies it lasts to the end.

    Parameters
    ----------
    path
        The list they are from.

    Raises
    ------
    InputError
        If a match lies outside, or the season is longer than a season may be.
    """
    counted = _from_first_counted(fixtures)
    first = min(fixture.date for fixture in fixtures)
    apart = (monday_of(min(fixture.date for fixture in counted)) - monday_of(first)).days // 7
    longer = max(pre_season, apart)
    if first_monday is not None and first < first_monday:
        counted = fixtures  # whose refusal names the first of them all
    span = {"off_season": off_season, "pre_season": longer}
    try:
        frame = frame_around(counted, **span, first_monday=first_monday, weeks=weeks)
        return _pre_season(frame) if all(map(is_friendly, fixtures)) else frame
    except SetupError as error:
        raise InputError.from_setup(path, error) from None


def _pre_season(frame: Frame) -> Frame:
    """Return a frame that is not in season at all; without a pre-season it is as it was."""
    kept = tuple(start for start in frame.phases if start.phase is not Phase.IN)
    pre = [start.phase for start in kept if start.phase is Phase.PRE]
    return replace(frame, phases=kept) if len(pre) == 1 and kept[-1].phase is Phase.PRE else frame


def _from_first_counted(fixtures: Sequence[Fixture]) -> Sequence[Fixture]:
    dates = [fixture.date for fixture in fixtures if not is_friendly(fixture)]
    if not dates:
        return fixtures
    return [fixture for fixture in fixtures if fixture.date >= min(dates)]
