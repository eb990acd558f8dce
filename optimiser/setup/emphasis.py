"""Emphasis: where on its ladder each quality should stand, week by week, 0 general to 100 specific.

A ladder starts at its bottom after three or more weeks off and climbs no faster than it can. In
season it stands a rung below the top, the last four weeks before a peak at the top. After a peak
with another far off, and once in the longest quiet stretch of a long run to the first peak, it
comes down to a general block and climbs again; where it would stand still for more than eight
weeks, a block a rung lower comes between. Common practice, no source.
"""

from collections.abc import Sequence
from itertools import groupby, pairwise
from math import ceil

from optimiser.domain.fixture import Priority
from optimiser.domain.quality import Quality
from optimiser.domain.season import Phase, Week

#: Levels: at a peak, in season, between a general block and these, a general block, after time off.
TOP, USUAL, BETWEEN, GENERAL, BOTTOM = 100, 75, 50, 25, 0
#: From one rung of five to the next.
STEP = 25
#: Weeks of a block, and of a level on the way up after time off.
BLOCK, CLIMB = 4, 3
#: Most weeks in a row on the usual rung.
LONGEST = 2 * BLOCK
#: Weeks off from which a ladder starts at its bottom.
LONG_BREAK = 3
#: Weeks from one peak to the next that leave room to come down to a general block, or halfway to
#: one, and be at the top again; and weeks in season before the first peak that ask for one.
ROOM, SOME_ROOM, LONG_RUN = 16, 12, 20


def emphasis_targets(
    weeks: Sequence[Week], qualities: Sequence[Quality]
) -> tuple[tuple[float, ...], ...]:
    """Return where on its ladder each quality should stand.

    Returns
    -------
    tuple
        One row a quality and one column a week, 0 general to 100 specific.
    """
    peaks, season = _peaks(weeks), _in_season(weeks)
    rows = {
        lead: _reached(weeks, _levels(lead, weeks, peaks, season))
        for lead in {quality.lead for quality in qualities}
    }
    return tuple(
        tuple(_placed(quality, level) for level in rows[quality.lead]) for quality in qualities
    )


def _reached(weeks: Sequence[Week], wanted: Sequence[int]) -> list[int]:
    """Return the levels wanted as small steps reach them: up one when the last was held a while."""
    found, off, level, held = [], LONG_BREAK, BOTTOM, 0
    for week, want in zip(weeks, wanted, strict=True):
        if week.closed:
            off += 1
            found.append(level)
            continue
        if off >= LONG_BREAK:
            level, held = BOTTOM, 0
        off = 0
        if want > level and held >= CLIMB:
            level, held = min(want, level + STEP), 0
        elif want < level:
            level, held = max(want, level - 3 * STEP), 0
        found.append(level)
        held += 1
    return found


def _placed(quality: Quality, level: float) -> float:
    return quality.low + (quality.high - quality.low) * level / 100


def _peaks(weeks: Sequence[Week]) -> list[int]:
    """Return the weeks of the matches that matter most; those of the last match if none does."""
    for priority in (Priority.HIGH, Priority.MEDIUM):
        found = [w.index for w in weeks if w.top_priority and w.top_priority.eased_as is priority]
        if found:
            return found
    return [week.index for week in weeks if week.fixtures][-1:]


def _in_season(weeks: Sequence[Week]) -> list[int]:
    """Return the level of every week as if it were in season, leads aside."""
    levels = [USUAL] * len(weeks)
    peaks = _peaks(weeks)
    for before, peak in pairwise([None, *peaks]):
        assert peak is not None
        if before is None:
            general = _quiet_block(weeks, peak)
        else:
            general = range(before + 1, before + 1 + BLOCK) if peak - before >= ROOM else None
            if SOME_ROOM <= peak - before < ROOM:
                _fill(levels, range(before + 1, before + 1 + BLOCK), BETWEEN)
        if general:
            _fill(levels, general, GENERAL)
            _fill(levels, range(general.stop, general.stop + BLOCK), BETWEEN)
        _fill(levels, range(peak - BLOCK + 1, peak + 1), TOP)
    if peaks:
        _fill(levels, range(peaks[-1] + 1, len(weeks)), BETWEEN)
    return levels


def _levels(lead: int, weeks: Sequence[Week], peaks: list[int], season: list[int]) -> list[int]:
    levels = [_level(lead, weeks, peaks, season, at) for at in range(len(weeks))]
    _vary(weeks, levels)
    return levels


def _vary(weeks: Sequence[Week], levels: list[int]) -> None:
    """Put blocks of a rung below into long stretches on the usual one, evenly, once in season."""
    usual = [not week.closed and level == USUAL for week, level in zip(weeks, levels, strict=True)]
    for same, run in groupby(range(len(weeks)), key=usual.__getitem__):
        stretch = list(run)
        many = ceil((len(stretch) - LONGEST) / (LONGEST + BLOCK)) if same else 0
        held = len(stretch) - many * BLOCK
        early = sum(weeks[week].phase is not Phase.IN for week in stretch)
        for count in range(1, many + 1):
            first = held * count // (many + 1) + (count - 1) * BLOCK
            first = max(first, early + CLIMB) if early else first
            for week in stretch[first : first + BLOCK]:
                levels[week] = BETWEEN


def _fill(levels: list[int], where: range, level: int) -> None:
    for week in where:
        if 0 <= week < len(levels):
            levels[week] = level


def _quiet_block(weeks: Sequence[Week], peak: int) -> range | None:
    """Return the middle of the longest stretch of a long run without a match that matters."""
    run = [week.index for week in weeks[:peak] if week.phase is Phase.IN]
    if len(run) < LONG_RUN:
        return None
    best: list[int] = []
    here: list[int] = []
    for week in range(run[0] + BLOCK, peak - 2 * BLOCK):
        matters = weeks[week].top_priority not in (None, Priority.LOW)
        here = [] if matters or weeks[week].phase is not Phase.IN else [*here, week]
        best = max(best, here, key=len)
    if len(best) < 2 * BLOCK:
        return None
    # what follows the block climbs again before the next match that matters
    first = best[0] + max(0, len(best) - 2 * BLOCK) // 2
    return range(first, first + BLOCK)


def _level(lead: int, weeks: Sequence[Week], peaks: list[int], season: list[int], at: int) -> int:
    if weeks[at].phase is Phase.OFF:
        return GENERAL
    if weeks[at].phase is Phase.PRE:
        return _way_up(weeks, at)
    if any(0 < at - peak <= BLOCK for peak in peaks):
        return season[at]
    ahead = min((peak for peak in peaks if peak >= at), default=at)
    return season[min(at + lead, ahead)]


def _way_up(weeks: Sequence[Week], at: int) -> int:
    """Return the level of a week of a pre-season, which climbs in blocks."""
    first = last = at
    while first and weeks[first - 1].phase is Phase.PRE:
        first -= 1
    while last + 1 < len(weeks) and weeks[last + 1].phase is Phase.PRE:
        last += 1
    length = last + 1 - first
    steps = max(1, round(length / BLOCK))
    return min(USUAL, GENERAL * (1 + (at - first) * steps // length))
