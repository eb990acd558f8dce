"""Which matches of a club are its peaks."""

from collections.abc import Sequence

from optimiser.domain.fixture import Fixture, Priority

SAME_PEAK_DAYS = 14
NEXT_PEAK_DAYS = 42


def rank_peaks(fixtures: Sequence[Fixture]) -> list[Fixture]:
    """Return fixtures by date with the last league match made ``high`` if there is room.

    Two peaks are one peak (at most two weeks apart) or two (at least six weeks apart, what a
    let-down and a new run-in need); where the cup final stands in between, the last league
    match is ``medium``.

    Parameters
    ----------
    fixtures
        By date; the cup final, if the club is in it, already ``high``.
    """
    finals = [fixture for fixture in fixtures if fixture.priority is Priority.HIGH]
    last = [fixture for fixture in fixtures if fixture not in finals and _league(fixture)][-1]
    gaps = [abs((final.date - last.date).days) for final in finals]
    clear = all(gap <= SAME_PEAK_DAYS or gap >= NEXT_PEAK_DAYS for gap in gaps)
    rank = Priority.HIGH if clear else Priority.MEDIUM
    ranked = last.model_copy(update={"priority": rank})
    return [ranked if fixture is last else fixture for fixture in fixtures]


def _league(fixture: Fixture) -> bool:
    return not fixture.competition.startswith("Cup")
