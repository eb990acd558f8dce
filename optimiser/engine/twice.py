"""A short search that proves most seasons at once, and a full one for the rest."""

from dataclasses import replace

from optimiser.board.model import Model
from optimiser.engine.search import Effort, Found, Watch, minimise


def short_first(
    model: Model,
    short: Effort,
    full: Effort,
    *,
    hint: dict[int, int] | None = None,
    watch: Watch | None = None,
) -> Found:
    """Search as in ``short``; if that closes nothing, go on from what it found as in ``full``.

    On Ctrl-C, what there is is returned.
    """
    found = minimise(model, short, hint=hint, watch=watch, keep=True)
    if found.closed or found.cut_short:
        return found
    start = dict(enumerate(found.values)) or hint
    again = minimise(model, full, hint=start, watch=watch, keep=True)
    seconds, spent = found.seconds + again.seconds, found.deterministic + again.deterministic
    return replace(again, seconds=seconds, deterministic=spent)
