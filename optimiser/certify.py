"""A proof that a solver confirms which had no part in it."""

from collections.abc import Iterator

from optimiser.board.model import Model
from optimiser.engine.branch import Limits, branch
from optimiser.engine.search import Effort, Found, minimise

#: Wall-clock seconds of branch and bound over a whole season's blocks and bands.
PATIENCE = 120.0
ENDLESS = 10**9


def confirmed(stage: str, model: Model, objective: int, effort: Effort) -> bool:
    """Tell whether ``objective`` is found to be the least by other means than the first time.

    Blocks and bands are searched by CP-SAT, so HiGHS is asked about them, and CP-SAT from another
    seed where HiGHS does not come to an end; doses the other way round.

    Parameters
    ----------
    effort
        Of CP-SAT.

    Raises
    ------
    KeyboardInterrupt
        On Ctrl-C.
    """
    for again in _searches(stage, model, effort):
        if again.cut_short:
            raise KeyboardInterrupt
        if again.status == "optimal":
            return again.objective == objective
    return False


def _searches(stage: str, model: Model, effort: Effort) -> Iterator[Found]:
    if stage == "emphasis":
        seconds = min(PATIENCE, effort.seconds)
        limits = Limits(gap=0.0, least=ENDLESS, most=ENDLESS, seconds=seconds, seed=effort.seed)
        yield branch(model, limits)
    yield minimise(model, effort)
