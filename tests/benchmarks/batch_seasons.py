"""Many made-up seasons as scenario files, all different, for batches at size.

Most are short, so that ten thousand end within an hour or two; the others give the
tail something to show.
"""

import datetime as dt
from collections.abc import Iterator
from pathlib import Path
from random import Random
from typing import NamedTuple

from optimiser.setup.default_ladders import default_tables

FIRST_MONDAY = dt.date(2026, 8, 31)
SATURDAY = 5


class Size(NamedTuple):
    """Fewest and most weeks and qualities."""

    weeks: tuple[int, int]
    qualities: tuple[int, int]


SHORT, LONGER, WHOLE = Size((6, 8), (2, 2)), Size((12, 14), (3, 4)), Size((52, 52), (6, 6))


def size_of(number: int) -> Size:
    """Return which size the season of a number has: one in 50 longer, one in 1000 a year."""
    if number % 1000 == 999:
        return WHOLE
    return LONGER if number % 50 == 49 else SHORT


def season_text(number: int) -> str:
    """Return one season as TOML: a match most weekends, some in midweek, the last one high."""
    rng, size = Random(number), size_of(number)
    weeks = rng.randint(*size.weeks)
    days = list(_match_days(rng, weeks))
    ladders = list(default_tables())
    out = rng.sample(ladders, len(ladders) - rng.randint(*size.qualities))
    lines = [
        f'name = "Made season {number}"',
        f"first_monday = {FIRST_MONDAY}",
        f"weeks = {weeks}",
        "fixtures = [",
        *(_fixture(rng, day, last=day == days[-1]) for day in days),
        "]",
        *(f"[qualities.{key}]\nuse = false" for key in sorted(out)),
    ]
    return "\n".join(lines) + "\n"


def write_seasons(folder: Path, count: int) -> None:
    """Write ``count`` seasons to ``folder``."""
    folder.mkdir(parents=True, exist_ok=True)
    for number in range(count):
        (folder / f"{number:05d}.toml").write_text(season_text(number), encoding="utf-8")


def _match_days(rng: Random, weeks: int) -> Iterator[int]:
    for week in range(rng.randint(2, 4) if weeks < 40 else 9, weeks - 1):
        if rng.random() < 0.15:
            yield 7 * week + rng.choice((1, 2))
        if rng.random() < 0.8:
            yield 7 * week + rng.choice((4, SATURDAY, SATURDAY, 6))
    yield 7 * (weeks - 1) + SATURDAY


def _fixture(rng: Random, day: int, *, last: bool) -> str:
    priority = "high" if last else rng.choice(["low"] * 8 + ["medium"] * 2)
    travel = rng.randrange(0, 9) / 2
    date = FIRST_MONDAY + dt.timedelta(days=day)
    return f'    {{ date = {date}, priority = "{priority}", travel_hours = {travel} }},'
