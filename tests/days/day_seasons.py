"""Small seasons and plans whose weeks are put on days."""

import datetime as dt

from made_seasons import FIRST_MONDAY, make_quality, make_season

from optimiser.domain.fixture import Fixture
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose

MINUTES = (10, 20, 30)


def six_qualities():
    """Six ladders of two bands, three on the field and three in the gym, as by default."""
    amounts = {
        "sprint": {"near_top_speed_m": 90},
        "sled": {},
        "jumps": {"contacts": 60},
        "power": {"hard_sets": 2},
        "strength": {"hard_sets": 4},
        "upper_body": {"hard_sets": 4},
    }
    return [
        make_quality(
            key,
            "field" if number < 3 else "gym",
            minutes=MINUTES,
            lower_body=key != "upper_body",
            amounts=[held, held],
        )
        for number, (key, held) in enumerate(amounts.items())
    ]


def at(week, day, clock=None, **more):
    """Return a match in ``week`` (from 0) on ``day`` (0 Monday), at ``clock`` such as "15:00"."""
    date = FIRST_MONDAY + dt.timedelta(days=7 * week + day)
    return Fixture(date=date, kickoff=dt.time.fromisoformat(clock) if clock else None, **more)


def season_of(*fixtures, weeks=3, breaks=(), **more):
    """Return a season of six qualities with these matches."""
    season = make_season(weeks, fixtures=fixtures, qualities=six_qualities(), **more)
    held = tuple(
        week.model_copy(update={"breaks": tuple(b for b in breaks if _touches(b, week.monday))})
        for week in season.weeks
    )
    return season.model_copy(update={"weeks": held})


def _touches(item, monday):
    return item.first <= monday + dt.timedelta(days=6) and item.last >= monday


def plan_of(season, doses, field=1, gym=1):
    """Return a plan alike in every week: doses 0-3 by quality, sessions of each place."""
    shut = [week.closed for week in season.weeks]
    rows = [Dose(doses.get(quality.key, 0)) for quality in season.qualities]
    return Plan(
        starts=(shut.index(False),),
        rungs=tuple(tuple(None if each else 1 for each in shut) for _ in rows),
        doses=tuple(tuple(Dose.NONE if each else dose for each in shut) for dose in rows),
        field=tuple(0 if each else field for each in shut),
        gym=tuple(0 if each else gym for each in shut),
    )
