"""A plan by rules of thumb, week after week: what the optimiser is measured against.

It is what one would do by hand in one go, and knows no rule: blocks of four weeks, the nearest band
to the block's mean target at most one rung up, an easy first week, an easy fortnight before a
``high`` fixture and an easy week before a ``medium`` one, touches where matches crowd.
"""

from collections.abc import Iterator

from optimiser.board.outline import open_stretches
from optimiser.domain.fixture import Priority
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose, Quality
from optimiser.domain.season import Phase, Season
from optimiser.setup.matches import busiest_seven

BLOCK = 4
#: Weeks up to and with a fixture that are easy.
EASY = {Priority.PEAK: 2, Priority.HIGH: 2, Priority.MEDIUM: 1, Priority.LOW: 0}
#: Highest rung (from 0) after a break.
RESTART = 1
#: Room of one session, in minutes.
SESSION = 50


def greedy(season: Season) -> Plan:
    """Return a plan by rules of thumb; it need not keep any rule."""
    blocks = list(_blocks(season))
    easy = {block.start for block in blocks} | set(_easy_weeks(season))
    rungs = tuple(_climb(season, index, blocks) for index in range(len(season.qualities)))
    doses = tuple(_doses(season, quality, easy) for quality in season.qualities)
    return Plan(
        starts=tuple(block.start for block in blocks),
        rungs=rungs,
        doses=doses,
        field=_sessions(season, rungs, doses, "field"),
        gym=_sessions(season, rungs, doses, "gym"),
    )


def _blocks(season: Season) -> Iterator[range]:
    """Yield blocks inside phases and between closed weeks."""
    for stretch in open_stretches(season):
        start = stretch.start
        for week in [*stretch[1:], stretch.stop]:
            if week == stretch.stop or season.weeks[week].phase != season.weeks[start].phase:
                yield from _cut(start, week)
                start = week


def _cut(start: int, stop: int) -> Iterator[range]:
    """Yield blocks of four weeks; one or two weeks that are left join the last."""
    while stop - start >= BLOCK + 3:
        yield range(start, start + BLOCK)
        start += BLOCK
    yield range(start, stop)


def _easy_weeks(season: Season) -> Iterator[int]:
    for week in season.weeks:
        if week.top_priority is not None:
            yield from range(week.index - EASY[week.top_priority] + 1, week.index + 1)


def _climb(season: Season, index: int, blocks: list[range]) -> tuple[int | None, ...]:
    """Return the rung of one quality by week."""
    quality = season.qualities[index]
    row: list[int | None] = [None] * len(season.weeks)
    for block in blocks:
        fresh = block.start == 0 or season.weeks[block.start - 1].closed
        last = row[block.start - 1] if block.start else None
        most = RESTART if fresh else (last or 0) + 1
        wanted = sum(season.emphasis[index][week] for week in block) / len(block)
        rung = _nearest(quality, wanted, most)
        for week in block:
            row[week] = rung
    return tuple(row)


def _nearest(quality: Quality, wanted: float, most: int) -> int:
    """Return the rung up to ``most`` that stands nearest to ``wanted``."""
    reach = range(min(most + 1, len(quality.bands)))
    return min(reach, key=lambda rung: abs(quality.position(rung) - wanted))


def _doses(season: Season, quality: Quality, easy: set[int]) -> tuple[Dose, ...]:
    busy = busiest_seven(season)
    return tuple(
        Dose.NONE
        if week.closed
        else Dose.TOUCH
        if week.index in easy or busy[week.index] > 1 or week.session_limit is not None
        else Dose.REDUCED
        if week.phase is Phase.IN
        else Dose.FULL
        for week in season.weeks
    )


def _sessions(
    season: Season,
    rungs: tuple[tuple[int | None, ...], ...],
    doses: tuple[tuple[Dose, ...], ...],
    place: str,
) -> tuple[int, ...]:
    """Return the sessions that hold the work of each week."""
    here = [
        (quality, bands, row)
        for quality, bands, row in zip(season.qualities, rungs, doses, strict=True)
        if quality.place == place
    ]
    minutes = [
        sum(quality.minutes(row[week], bands[week]) for quality, bands, row in here)
        for week in range(len(season.weeks))
    ]
    return tuple(-(-each // SESSION) for each in minutes)
