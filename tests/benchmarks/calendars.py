"""Invented seasons of a given size."""

import datetime as dt
from random import Random
from typing import Any

from optimiser.domain.fixture import Break, Fixture, Priority
from optimiser.domain.scenario import Scenario
from optimiser.domain.season import Season
from optimiser.setup.build import build_season
from optimiser.setup.default_ladders import default_tables

FIRST_MONDAY = dt.date(2026, 6, 22)
BUILD_UP = 9
END = 3


def season(weeks: int, qualities: int, fixtures: int, seed: int) -> Season:
    """Return a season: build-up, matches with a break between, and rest at the end.

    Parameters
    ----------
    fixtures
        Weekend matches first, then midweek ones, spread by chance.
    """
    rng = Random(seed)
    inside = [week for week in range(BUILD_UP, weeks - END) if week != _rest_week(weeks)]
    matches = _matches(rng, inside, fixtures)
    scenario = Scenario(
        name=f"{weeks} weeks, {qualities} qualities, {fixtures} fixtures, {seed}",
        first_monday=FIRST_MONDAY,
        weeks=weeks,
        fixtures=matches,
        breaks=_breaks(weeks),
        qualities=_ladders(qualities),
    )
    return build_season(scenario, matches)


def _rest_week(weeks: int) -> int:
    return BUILD_UP + (weeks - BUILD_UP - END) // 2


def _breaks(weeks: int) -> tuple[Break, ...]:
    spans = [(_rest_week(weeks), 1), (weeks - END, END)]
    return tuple(
        Break(kind="rest", first=_day(week, 0), last=_day(week + length - 1, 6))
        for week, length in spans
    )


def _day(week: int, day: int) -> dt.date:
    return FIRST_MONDAY + dt.timedelta(weeks=week, days=day)


def _matches(rng: Random, inside: list[int], count: int) -> tuple[Fixture, ...]:
    """Return the matches; one is high in the last week and one near the middle."""
    weekends = [*sorted(rng.sample(inside[:-1], min(count - 1, len(inside) - 1))), inside[-1]]
    midweeks = rng.sample(inside[:-1], min(len(inside) - 1, max(0, count - len(weekends))))
    middle = min(weekends, key=lambda week: abs(week - inside[len(inside) // 2]))
    far = inside[-1] - middle >= 8
    days = [(week, rng.choice((4, 5, 5, 5, 6))) for week in weekends]
    days += [(week, rng.choice((1, 2))) for week in midweeks]
    return tuple(
        Fixture(
            date=_day(week, day),
            travel_hours=rng.choice((0, 0, 1, 2)),
            priority=_priority(rng, week, day, {inside[-1], middle} if far else {inside[-1]}),
        )
        for week, day in sorted(days)
    )


def _priority(rng: Random, week: int, day: int, peaks: set[int]) -> Priority:
    if week in peaks and day > 3:
        return Priority.HIGH
    return rng.choice([Priority.LOW] * 9 + [Priority.MEDIUM])


def _ladders(count: int) -> dict[str, dict[str, Any]]:
    """Return the changes that leave so many qualities in use: fewer, or copies of two more."""
    tables = default_tables()
    if count <= len(tables):
        return {key: {"use": False} for key in list(tables)[count:]}
    spare = {"agility": tables["power"], "upper_body": tables["general_strength"]}
    named = {key: {**table, "name": key.replace("_", " ")} for key, table in spare.items()}
    return dict(list(named.items())[: count - len(tables)])
