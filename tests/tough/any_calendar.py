"""Calendars as clubs have them, by chance: from no match to four a week, in any year."""

import datetime as dt
from dataclasses import dataclass
from random import Random

from optimiser.domain.fixture import Break, Fixture, Priority
from optimiser.domain.scenario import Scenario

#: Monday-based days on which matches fall, by the kind of league.
STYLES: dict[str, tuple[tuple[int, ...], ...]] = {
    "weekend": ((5,), (6,), (4,)),
    "midweek too": ((2, 5), (1, 5), (2, 6)),
    "every other day": ((1, 3, 5), (0, 2, 4, 6), (2, 4, 6), (1, 4, 5, 6)),
    "back to back": ((4, 5), (5, 6), (4, 5, 6)),
    "any": ((0, 1, 2, 3, 4, 5, 6),),
}
COMPETITIONS = ("League", "Cup", "Cup semi-final", "Cup final", "Friendly", "")


@dataclass(frozen=True)
class Calendar:
    """A season's dates."""

    first_monday: dt.date
    weeks: int
    fixtures: tuple[Fixture, ...]
    breaks: tuple[Break, ...]

    def scenario(self) -> Scenario:
        """Return its scenario, every rule at its default."""
        return Scenario(
            name="a calendar",
            first_monday=self.first_monday,
            weeks=self.weeks,
            fixtures=self.fixtures,
            breaks=self.breaks,
        )


def any_calendar(seed: int) -> Calendar:
    """Return calendar number ``seed``: 6 to 110 weeks, 1 to 130 matches, any priorities."""
    rng = Random(seed)
    weeks = rng.choice((rng.randint(6, 20), rng.randint(20, 60), rng.randint(45, 53), 110))
    year = rng.randint(2018, 2034)
    # week 53 and leap days are met by chance; half of the seasons are southern
    first = dt.date(year, rng.choice((1, 2, 6, 7, 12)), rng.randint(1, 28))
    monday = first - dt.timedelta(days=first.weekday())
    days = _match_days(rng, weeks)
    breaks = _breaks(rng, monday, weeks)
    fixtures = tuple(
        _fixture(rng, monday + dt.timedelta(days=day), share)
        for share in [rng.choice((0.0, 0.05, 0.2, 0.6))]
        for day in days
    )
    return Calendar(monday, weeks, fixtures, breaks)


def _match_days(rng: Random, weeks: int) -> list[int]:
    """Return the days of the matches, a day as often as it has matches."""
    most = rng.choice((1, 5, 15, 30, 45, 70, 100, 130))
    found: list[int] = []
    week = rng.randint(0, max(0, weeks // 4))
    while week < weeks and len(found) < most:
        style = STYLES[rng.choice(list(STYLES))]
        for _ in range(rng.randint(1, 12)):
            if week < weeks:
                found += _week(rng, week, style)
            week += 1
        week += rng.choice((0, 0, 1, 2, 5, 9))
    return sorted(found)[:most] or [7 * (weeks // 2) + 5]


def _week(rng: Random, week: int, style: tuple[tuple[int, ...], ...]) -> list[int]:
    days = list(rng.choice(style))
    if len(days) == 7:
        days = rng.sample(days, rng.randint(0, 4))
    if rng.random() < 0.06:  # a tournament
        first = rng.randint(0, 3)
        return [7 * week + day for day in range(first, first + rng.randint(2, 4)) for _ in (0, 1)]
    return [7 * week + day for day in days for _ in range(1 + (rng.random() < 0.04))]


def _fixture(rng: Random, date: dt.date, share: float) -> Fixture:
    high = rng.random() < share
    return Fixture(
        date=date,
        kickoff=rng.choice((None, dt.time(15), dt.time(19, 45), dt.time(11))),
        competition=rng.choice(COMPETITIONS),
        priority=Priority.HIGH if high else rng.choice((Priority.MEDIUM, *[Priority.LOW] * 3)),
        travel_hours=rng.choice((0, 0, 1, 3, 12)),
    )


def _breaks(rng: Random, monday: dt.date, weeks: int) -> tuple[Break, ...]:
    found = []
    for _ in range(rng.choice((0, 0, 1, 2, 4))):
        first = monday + dt.timedelta(days=rng.randint(0, 7 * weeks - 1))
        length = rng.choice((2, 5, 7, 10, 14, 28))
        kind = rng.choice(("rest", "rest", "exams", "camp", "bye"))
        found.append(Break(kind=kind, first=first, last=first + dt.timedelta(days=length - 1)))
    return tuple(found)
