"""What stands out in a fixture list before a plan is made."""

import datetime as dt
from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import pairwise

from optimiser.domain.fixture import Fixture, Priority

# Engineering choices: a peak needs weeks to build and to taper, so a season holds few of them.
MOST_HIGHS = 6
SHARED_TAPER = dt.timedelta(weeks=3)
ONE_EVENT = dt.timedelta(days=2)
LONG_GAP = dt.timedelta(weeks=4)
CROWDED = 3
#: Crowded weeks and pairs of high matches told one by one.
FEW = 4


def season_notices(
    fixtures: Sequence[Fixture], priorities: Mapping[dt.date, Priority]
) -> list[str]:
    """Return a sentence for each thing worth a look.

    Parameters
    ----------
    priorities
        By date, over what the fixtures say.
    """
    dates = sorted(fixture.date for fixture in fixtures)
    highs = sorted(
        {
            fixture.date
            for fixture in fixtures
            if priorities.get(fixture.date, fixture.priority).great
        }
    )
    told = [*_many(highs), *_close(highs), *_gaps(dates), *_crowded(dates)]
    return [*told, *_several(fixtures)]


def _several(fixtures: Sequence[Fixture]) -> list[str]:
    """Return a word on days with several matches, which are planned as one event."""
    held = Counter(fixture.date for fixture in fixtures if fixture.minutes is None)
    days = sorted(date for date, count in held.items() if count > 1)
    if not days:
        return []
    return [
        f"several matches on {len(days)} day{'' if len(days) == 1 else 's'}, {days[0]} first: each "
        "is one event, every match as long as [match] minutes says; write a shorter game's there"
    ]


def _many(highs: Sequence[dt.date]) -> list[str]:
    told = f"{len(highs)} match days are high, more than {MOST_HIGHS}: not all can be peaked for"
    return [told] if len(highs) > MOST_HIGHS else []


def _close(highs: Sequence[dt.date]) -> list[str]:
    near = [
        (first, second)
        for first, second in pairwise(highs)
        if ONE_EVENT < second - first < SHARED_TAPER
    ]
    if len(near) > FEW:
        return [
            f"{len(near)} times two high matches are less than three weeks apart and share a "
            f"taper, first on {near[0][0]} and {near[0][1]}"
        ]
    return [
        f"the high matches on {first} and {second} are less than three weeks apart: "
        "they share a taper"
        for first, second in near
    ]


def _gaps(dates: Sequence[dt.date]) -> list[str]:
    return [
        f"no match for {(second - first).days // 7} weeks, from {first} to {second}"
        for first, second in pairwise(dates)
        if second - first >= LONG_GAP
    ]


def _crowded(dates: Sequence[dt.date]) -> list[str]:
    mondays = Counter(date - dt.timedelta(days=date.weekday()) for date in dates)
    crowded = sorted((monday, count) for monday, count in mondays.items() if count >= CROWDED)
    if len(crowded) > FEW:
        (first, _), (last, _) = crowded[0], crowded[-1]
        most = max(count for _, count in crowded)
        return [
            f"{len(crowded)} weeks with {CROWDED} or more matches, up to {most}, between the weeks "
            f"from {first} and {last}: little room to train"
        ]
    return [f"{count} matches in the week from {monday}" for monday, count in crowded]
