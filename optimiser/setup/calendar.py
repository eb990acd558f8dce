"""The calendar: a scenario and its fixtures become weeks."""

import datetime as dt
from collections.abc import Iterator, Sequence
from itertools import pairwise

from optimiser.domain.fixture import Break, Fixture
from optimiser.domain.practice import Practice
from optimiser.domain.scenario import MatchSettings, Scenario
from optimiser.domain.season import Phase, Week
from optimiser.domain.week_number import index_of

# Engineering choices: at least four weeks off and four of retraining are what an expert panel
# asks for (FIFPRO 2025); six weeks of pre-season is common practice, no source.
PRE_SEASON_WEEKS = 6
LONG_GAP_WEEKS = 8
PRE_SEASON_WEEKS_IN_GAP = 4
EXAM_SESSIONS = 2
#: Closed weeks after which practice climbs again.
OFF_WITHOUT_CLIMB = 2
#: A step of the climb that no season reaches: all of the usual practice.
NEVER = 1000


def build_weeks(scenario: Scenario, fixtures: Sequence[Fixture]) -> tuple[Week, ...]:
    """Return every week of the season, its target still 0.

    Parameters
    ----------
    fixtures
        All of them, inside the season, at most one a day.
    """
    phases = phases_of(scenario, fixtures)
    weeks = [_week(scenario, index, phase, fixtures) for index, phase in enumerate(phases)]
    return tuple(_with_practice(weeks, scenario.practice))


def _with_practice(weeks: list[Week], practice: Practice) -> Iterator[Week]:
    """Bring practice up in steps, and ease it before the matches that matter most."""
    for week, step in zip(weeks, _steps(weeks), strict=True):
        share = practice.climb[step] if step < len(practice.climb) else 100
        if any(fixture.priority.great for fixture in week.fixtures):
            share = min(share, practice.ease)
        by_hand = practice.by_week.get(week.number)
        load = round(week.practice_load * share / 100) if by_hand is None else by_hand
        yield week.model_copy(update={"practice_load": load})


def _steps(weeks: list[Week]) -> Iterator[int]:
    """Return for each week how many weeks of practice came since the start of its climb."""
    step, closed = NEVER, 0
    for before, week in pairwise([None, *weeks]):
        assert week is not None
        begins = week.phase is Phase.PRE and (before is None or before.phase is not Phase.PRE)
        if begins or closed >= OFF_WITHOUT_CLIMB:
            step = 0
        closed = closed + 1 if week.closed else 0
        yield step
        step += not week.closed


def phases_of(scenario: Scenario, fixtures: Sequence[Fixture]) -> list[Phase]:
    """Return the phase of each week: as written, or derived from the fixtures."""
    if not scenario.phases:
        with_match = sorted({week_of(scenario, fixture.date) for fixture in fixtures})
        return derive_phases(scenario.weeks, with_match)
    bounds = [index_of(start.first_week) for start in scenario.phases] + [scenario.weeks]
    lengths = [stop - start for start, stop in pairwise(bounds)]
    return [
        start.phase
        for start, length in zip(scenario.phases, lengths, strict=True)
        for _ in range(length)
    ]


def derive_phases(
    weeks: int, with_match: Sequence[int], pre_season: int = PRE_SEASON_WEEKS
) -> list[Phase]:
    """Return the phase of each week from the rising indices of weeks ``with_match``.

    In season from the first match to the last, pre-season up to ``pre_season`` weeks before,
    off-season around it. Eight and more weeks without a match between two are off-season,
    the last four of them pre-season.
    """
    phases = [Phase.OFF] * weeks
    if not with_match:
        return phases
    first, last = with_match[0], with_match[-1]
    phases[first : last + 1] = [Phase.IN] * (last + 1 - first)
    start = max(0, first - pre_season)
    phases[start:first] = [Phase.PRE] * (first - start)
    for before, after in pairwise(with_match):
        gap = after - before - 1
        if gap >= LONG_GAP_WEEKS:
            away = gap - PRE_SEASON_WEEKS_IN_GAP
            phases[before + 1 : after] = [Phase.OFF] * away + [Phase.PRE] * PRE_SEASON_WEEKS_IN_GAP
    return phases


def week_of(scenario: Scenario, day: dt.date) -> int:
    """Return the index of the week ``day`` falls in; below 0 before the season."""
    return (day - scenario.first_monday).days // 7


def _week(scenario: Scenario, index: int, phase: Phase, fixtures: Sequence[Fixture]) -> Week:
    monday = scenario.first_monday + dt.timedelta(weeks=index)
    days = [monday + dt.timedelta(days=step) for step in range(7)]
    here = tuple(fixture for fixture in fixtures if monday <= fixture.date <= days[-1])
    breaks = tuple(
        item for item in scenario.breaks if item.first <= days[-1] and item.last >= monday
    )
    taken = {fixture.date for fixture in here} | _rest_days(breaks, days)
    open_days = 7 - len(taken)
    resting = any(item.kind == "rest" for item in breaks)
    closed = resting and open_days <= 1
    return Week(
        index=index,
        monday=monday,
        phase=phase,
        fixtures=here,
        breaks=breaks,
        open_days=open_days,
        closed=closed,
        session_limit=_session_limit(breaks, open_days),
        target=0.0,
        practice_load=_practice_load(
            scenario.practice, phase, _practices_possible(open_days, resting, closed)
        ),
        practice=scenario.practice.of(phase),
        match_load=sum(_match_load(fixture, scenario.match) for fixture in here),
    )


def _rest_days(breaks: Sequence[Break], days: Sequence[dt.date]) -> set[dt.date]:
    return {
        day
        for day in days
        if any(item.kind == "rest" and item.first <= day <= item.last for item in breaks)
    }


def _session_limit(breaks: Sequence[Break], open_days: int) -> int | None:
    limits = [item.sessions for item in breaks if item.sessions is not None]
    limits += [EXAM_SESSIONS for item in breaks if item.kind == "exams" and item.sessions is None]
    # A day of work and a day to get over it: a shortened week holds half its open days.
    limits += [open_days // 2 for item in breaks if item.kind == "rest"]
    return min(limits, default=None)


def _practices_possible(open_days: int, resting: bool, closed: bool) -> int:
    if closed:
        return 0
    return open_days // 2 if resting else open_days


def _practice_load(practice: Practice, phase: Phase, possible: int) -> int:
    usual = practice.of(phase)
    return usual.load(min(usual.sessions, possible))


def _match_load(fixture: Fixture, match: MatchSettings) -> int:
    return round((fixture.minutes or match.minutes) * match.rpe)
