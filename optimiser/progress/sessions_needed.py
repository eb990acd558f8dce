"""How many sessions what was done takes."""

from collections.abc import Sequence

from optimiser.board.board import LONGEST_SESSION
from optimiser.domain.quality import Dose, Place
from optimiser.domain.season import Season


def sessions_needed(
    season: Season,
    planned: Sequence[int],
    rungs: Sequence[Sequence[int | None]],
    doses: Sequence[Sequence[Dose]],
    place: Place,
    weeks: int,
) -> tuple[int, ...]:
    """Return sessions by week: in the first ``weeks`` as planned, but none without work for it."""
    counts = list(planned)
    here = [index for index, quality in enumerate(season.qualities) if quality.place == place]
    for week in range(weeks):
        pieces = sum(min(int(doses[index][week]), 2) for index in here)
        minutes = sum(
            season.qualities[index].minutes(doses[index][week], rungs[index][week])
            for index in here
        )
        needed = max(planned[week], 1, -(-minutes // LONGEST_SESSION))
        counts[week] = min(needed, pieces)
    return tuple(counts)
