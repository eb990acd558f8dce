"""Random seasons, small enough to try every plan or to be solved twice."""

import datetime as dt
from random import Random

from made_seasons import FIRST_MONDAY, LADDERS, make_quality, make_season

from optimiser.domain.fixture import Fixture, Priority
from optimiser.domain.season import Phase, Season


def tiny_season(
    rng: Random, weeks: int, *, bands: int = 3, closed: int = 1, ladders: int = 2
) -> Season:
    """Return a season with random targets and up to ``closed`` closed weeks."""
    border = rng.randint(2, weeks)
    shut = sorted(rng.sample(range(1, weeks), rng.randint(0, closed)))
    qualities = [_quality(rng, key, place, bands) for key, place in LADDERS[:ladders]]
    season = make_season(
        weeks,
        qualities=qualities,
        closed=shut,
        phases=[Phase.PRE if week < border else Phase.IN for week in range(weeks)],
        fixtures=_fixtures(rng, weeks, shut),
        practice=[rng.choice((0, 300, 750)) for _ in range(weeks)],
    )
    targets = [rng.uniform(20, 100) for _ in range(weeks)]
    return season.model_copy(
        update={
            "emphasis": tuple(
                tuple(round(rng.uniform(0, 100), 1) for _ in range(weeks)) for _ in qualities
            ),
            "weeks": tuple(
                week.model_copy(update={"target": target})
                for week, target in zip(season.weeks, targets, strict=True)
            ),
        }
    )


def _quality(rng: Random, key: str, place: str, bands: int):
    touch, more, most = rng.randint(5, 15), rng.randint(5, 20), rng.randint(5, 25)
    minutes = (touch, touch + more, touch + more + most)
    amounts = [{"contacts": rng.randint(0, 120)} for _ in range(bands)]
    own = [
        tuple(sorted(5 * rng.randint(1, 8) for _ in range(3))) if rng.random() < 0.4 else None
        for _ in range(bands)
    ]
    made = make_quality(key, place, bands=bands, minutes=minutes, amounts=amounts, own=own)
    rungs = [
        band.model_copy(update={"gain": 0.6 + 0.4 * rung / (bands - 1)})
        for rung, band in enumerate(made.bands)
    ]
    return made.model_copy(
        update={
            "weight": rng.randint(1, 4),
            "tau_fitness": rng.uniform(20, 50),
            "tau_fatigue": rng.uniform(5, 15),
            "start": rng.uniform(0, 60),
            "bands": tuple(rungs),
        }
    )


def _fixtures(rng: Random, weeks: int, shut: list[int]) -> list[Fixture]:
    return [
        Fixture(
            date=FIRST_MONDAY + dt.timedelta(days=7 * week + rng.randrange(7)),
            priority=rng.choice([Priority.LOW, Priority.LOW, Priority.MEDIUM, Priority.HIGH]),
        )
        for week in range(2, weeks)
        if week not in shut and rng.random() < 0.4
    ]
