"""What stands out in a fixture list before a plan is made."""

import datetime as dt
from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import pairwise

from cli.files.fixtures_priorities import is_friendly
from optimiser.domain.calendar_day import monday_of
from optimiser.domain.fixture import Fixture, Priority
from optimiser.domain.season import Phase
from optimiser.domain.week_number import index_of
from optimiser.domain.wording import counted
from optimiser.setup.amounts import GAP
from optimiser.setup.calendar import LONG_GAP_WEEKS, PRE_SEASON_WEEKS_IN_GAP
from optimiser.setup.events import days_in_a_row
from optimiser.setup.frame import Frame

# Engineering choices: a peak needs weeks to build and to taper, so a season holds few of them.
MOST_HIGHS = 6
#: As the rule taper has it.
ONE_PEAK = dt.timedelta(weeks=3)
ONE_EVENT = dt.timedelta(days=2)
WEEK = dt.timedelta(weeks=1)
CROWDED = 3
#: Weeks in a row with a match from which a week off is missed. Common practice, no source.
NO_REST = 16
#: Crowded weeks and pairs of high matches told one by one.
FEW = 4


def season_notices(
    fixtures: Sequence[Fixture],
    priorities: Mapping[dt.date, Priority],
    frame: Frame | None = None,
) -> list[str]:
    """Return a sentence for each thing worth a look.

    Parameters
    ----------
    priorities
        By date, over what the fixtures say.
    frame
        The season's weeks and phases, where they are known.
    """
    dates = sorted({fixture.date for fixture in fixtures})
    highs = sorted(
        {
            fixture.date
            for fixture in fixtures
            if priorities.get(fixture.date, fixture.priority).great
        }
    )
    told = [] if frame is None else [_phases(fixtures, frame)]
    told += [*_many(highs), *_close(highs), *_gaps(dates), *_crowded(dates)]
    return [*told, *_unbroken(dates), *_events(fixtures), *_several(fixtures)]


def _phases(fixtures: Sequence[Fixture], frame: Frame) -> str:
    starts = [_monday_of(frame, start.first_week) for start in frame.phases]
    ends = [*starts[1:], frame.first_monday + frame.weeks * WEEK]
    spans = zip(frame.phases, starts, ends, strict=True)
    told = [
        f"{start.phase.value} from {first}{_friendlies(fixtures, start.phase, first, end)}"
        for start, first, end in spans
    ]
    return f"phases: {', '.join(told)}"


def _friendlies(fixtures: Sequence[Fixture], phase: Phase, first: dt.date, end: dt.date) -> str:
    held = [match for match in fixtures if first <= match.date < end and is_friendly(match)]
    if phase is Phase.IN or not held:
        return ""
    return f" (with {counted(len(held), 'friendly')})"


def _monday_of(frame: Frame, week: int) -> dt.date:
    return frame.first_monday + index_of(week) * WEEK


def _events(fixtures: Sequence[Fixture]) -> list[str]:
    """Return a word on matches on days in a row that are planned for as one."""
    events = days_in_a_row(fixtures)
    told = [
        f"{_span(event.first, event.last)} ({counted(number, 'match')})"
        for event in events
        if (number := sum(event.first <= match.date <= event.last for match in fixtures))
    ]
    if not told:
        return []
    words = ", ".join(told[:FEW]) + (f" and {len(told) - FEW} more" if len(told) > FEW else "")
    one = "one event each" if len(told) > 1 else "one event"
    return [f"days in a row that are {one}, prepared for once and judged as it begins: {words}"]


def _span(first: dt.date, last: dt.date) -> str:
    return f"{first:%a} {first} to {last:%a} {last}"


def _several(fixtures: Sequence[Fixture]) -> list[str]:
    """Return a word on days with several matches, which are planned as one event."""
    held = Counter(fixture.date for fixture in fixtures if fixture.minutes is None)
    days = sorted(date for date, count in held.items() if count > 1)
    if not days:
        return []
    return [
        f"several matches on {counted(len(days), 'day')}, {days[0]} first: each day "
        "is planned as one, every match as long as [match] minutes says; write a shorter game's "
        "there"
    ]


def _many(highs: Sequence[dt.date]) -> list[str]:
    told = f"{len(highs)} match days are high, more than {MOST_HIGHS}: not all can be peaked for"
    return [told] if len(highs) > MOST_HIGHS else []


def _close(highs: Sequence[dt.date]) -> list[str]:
    near = [
        (first, second)
        for first, second in pairwise(highs)
        if second - first > ONE_EVENT and monday_of(second) - monday_of(first) <= ONE_PEAK
    ]
    if len(near) > FEW:
        return [
            f"{len(near)} times two high matches are three weeks apart or less and share a peak, "
            f"first on {near[0][0]} and {near[0][1]}"
        ]
    return [
        f"the high matches on {first} and {second} are three weeks apart or less: they share a peak"
        for first, second in near
    ]


def _gaps(dates: Sequence[dt.date]) -> list[str]:
    """Return a word on weeks in a row without a match, and what is made of them."""
    told = []
    for before, after in pairwise(sorted({monday_of(date) for date in dates})):
        weeks = (after - before).days // 7 - 1
        if weeks >= GAP:
            told.append(f"{weeks} weeks without a match from {before + WEEK}: {_made_of(weeks)}")
    return told


def _made_of(weeks: int) -> str:
    if weeks >= LONG_GAP_WEEKS:
        return f"off-season, then a pre-season of {PRE_SEASON_WEEKS_IN_GAP} weeks"
    return "a small pre-season is made of them; name those that are for rest under [[breaks]]"


def _crowded(dates: Sequence[dt.date]) -> list[str]:
    mondays = Counter(map(monday_of, dates))
    crowded = sorted((monday, count) for monday, count in mondays.items() if count >= CROWDED)
    if len(crowded) > FEW:
        (first, _), (last, _) = crowded[0], crowded[-1]
        most = max(count for _, count in crowded)
        return [
            f"{len(crowded)} weeks with {CROWDED} or more match days, up to {most}, between the "
            f"weeks from {first} and {last}: little room to train"
        ]
    return [f"{count} match days in the week from {monday}" for monday, count in crowded]


def _unbroken(dates: Sequence[dt.date]) -> list[str]:
    """Return a word on the longest run of weeks with a match, if it is long."""
    longest: list[dt.date] = []
    run: list[dt.date] = []
    for monday in sorted({monday_of(date) for date in dates}):
        run = [*run, monday] if run and monday - run[-1] == WEEK else [monday]
        longest = max(longest, run, key=len)
    if len(longest) < NO_REST:
        return []
    return [
        f"a match in each of {len(longest)} weeks in a row from {longest[0]}: no week of rest; "
        "lighter weeks fall between matches"
    ]
