"""One choice of a plan changed, all else left as it is."""

from collections.abc import Iterator

from optimiser.board.board import MOST_SESSIONS
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose
from optimiser.domain.season import Season


def block_of(plan: Plan, week: int) -> range:
    """Return the block a week lies in; an empty range in a closed week."""
    return next((block for block in plan.blocks() if week in block), range(0))


def with_band(plan: Plan, quality: int, week: int, rung: int) -> Plan:
    """Return the plan with another rung through the block of ``week``."""
    rows = [list(row) for row in plan.rungs]
    for day in block_of(plan, week):
        rows[quality][day] = rung
    return plan.model_copy(update={"rungs": tuple(map(tuple, rows))})


def with_dose(season: Season, plan: Plan, quality: int, week: int, dose: Dose) -> Iterator[Plan]:
    """Yield the plan with another dose in ``week``, sessions as they are, then near by."""
    rows = [list(row) for row in plan.doses]
    rows[quality][week] = dose
    changed = plan.model_copy(update={"doses": tuple(map(tuple, rows))})
    place = season.qualities[quality].place
    held = plan.field if place == "field" else plan.gym
    for sessions in sorted(range(MOST_SESSIONS + 1), key=lambda n: (abs(n - held[week]), n)):
        counts = (*held[:week], sessions, *held[week + 1 :])
        yield changed.model_copy(update={place: counts})
