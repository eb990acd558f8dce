"""From a board to a solution of the season's model: price it, start, search."""

import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from optimiser.board.board import Board
from optimiser.board.model import Model, copied
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Place
from optimiser.engine.cp_sat_search import Found
from optimiser.engine.presolve import Presolved, presolved
from optimiser.joint_model.certify import confirmed
from optimiser.joint_model.cost_rows import price_season
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.search import Better, search
from optimiser.joint_model.start import fewest, first_plan, first_values, plan_near, standing_for
from optimiser.joint_model.ties import settled, tie_weights
from optimiser.joint_model.verdict import NOTHING


@dataclass(frozen=True)
class Progress:
    """A better plan was found: its cost and the best bound, in the model's units."""

    seconds: float
    cost: float
    bound: float


Watch = Callable[[Progress], None]
PLACES: tuple[Place, ...] = ("field", "gym")
#: Told of seconds, cost and bound.
Told = Callable[[float, float, float], None]
#: Seconds that another solver has to look for something better.
CERTIFY = 600.0
#: Adds to the costs of a priced board.
Also = Callable[[Board], None]


def drive(
    board: Board,
    settings: Settings,
    *,
    start: Plan | None = None,
    also: Also | None = None,
    few: bool | None = None,
    watch: Watch | None = None,
    better: Better | None = None,
) -> Found:
    """Search a season's board, blocks, bands, doses and sessions together.

    Parameters
    ----------
    start
        A plan to start from; where it is not legal, one near it is looked for.
    also
        Adds costs or rows once the season is priced.
    few
        Where costs leave open how many sessions hold the work, have the fewest; left out, unless
        ``also`` adds costs, which may say which are wanted.
    better
        Shown better solutions before the search has ended.

    Returns
    -------
    Found
        Values are those of the board's variables; none where rules clash or time ran out.
    """
    began = time.perf_counter()
    plain = copied(board.model)
    price_season(board, settings.rates)
    if also is not None:
        also(board)
    few = also is None if few is None else few
    cost = board.model.cost
    counted = [var for var in session_counts(board) if var not in cost] if few else ()
    ties = {} if settings.close else tie_weights(board)
    ask = (teller(watch, began), counted, better, ties)
    weeks = weekly(board)
    near = plan_near(board, plain, settings, start) if start else []
    if near:
        first = Found("feasible", near, None, 0.0, 0.0, 0.0)
        if better is not None:
            better(first)
    else:
        found = drive_model(board.model, {}, weeks, settings, *ask)
        if found.values or found.cut_short:
            return replace(found, seconds=time.perf_counter() - began)
        first = first_plan(board, settings, start, plain)
    if not first.values:
        return first
    held = dict(enumerate(first.values))
    left = replace(settings, seconds=max(1.0, settings.seconds - (time.perf_counter() - began)))
    if first.cut_short:
        left = replace(left, seconds=0.0)
    found = drive_model(board.model, held, weeks, left, *ask, known=bool(near))
    cut = first.cut_short or found.cut_short
    return replace(found, seconds=time.perf_counter() - began, cut_short=cut)


def drive_model(
    model: Model,
    held: dict[int, int],
    groups: Sequence[Sequence[int]],
    settings: Settings,
    told: Told | None = None,
    counted: Sequence[int] = (),
    better: Better | None = None,
    ties: Mapping[int, int] | None = None,
    *,
    known: bool = False,
) -> Found:
    """Search a priced model from a solution of which some values are known.

    Parameters
    ----------
    held
        Values of some variables, enough to work out the others; nothing if no solution is known.
    groups
        Choices by week.
    counted
        Variables of which, where costs leave it open, the least sum is wanted.
    ties
        Weights by variable: of several proven solutions that of least weight is taken.
    known
        What is held comes from an earlier search.
    """
    began = time.perf_counter()
    small = presolved(model)
    place = {old: new for new, old in enumerate(small.kept)}
    weeks = [[place[var] for var in group if var in place] for group in groups]
    values = standing_for(small, held) if held else []
    if held and not values:  # what was added to the model since has made the start illegal
        first = first_values(small.model, settings)
        if not first.values:
            return first
        values = first.values
    found = search(small.model, values, weeks, settings, told, _whole(small, better), known=known)
    if not found.values:
        return found
    if ties and found.near(NOTHING):
        told_here = {place[var]: weight for var, weight in ties.items() if var in place}
        spare = settings.seconds - (time.perf_counter() - began)
        found = _settled(small.model, found, told_here, spare)
    if few := [place[var] for var in counted if var in place]:
        found = replace(found, values=fewest(small.model, found.values, few))
    found = replace(found, values=small.expand(found.values))
    return _certified(model, found) if settings.certify else found


def _settled(model: Model, found: Found, ties: Mapping[int, int], seconds: float) -> Found:
    """Take the least of all proven solutions; a key pressed meanwhile leaves the one there is."""
    try:
        return replace(found, values=settled(model, found.values, ties, max(0.0, seconds)))
    except KeyboardInterrupt:
        return replace(found, cut_short=True)


def _whole(small: Presolved, better: Better | None) -> Better | None:
    """Return what is shown solutions of the whole model."""
    if better is None:
        return None
    return lambda found: better(replace(found, values=small.expand(found.values)))


def _certified(model: Model, found: Found) -> Found:
    """Ask another solver about a proof, if there is one."""
    if found.objective is None or not found.near(NOTHING):
        return found
    try:
        again = confirmed(model, found.values, found.objective, CERTIFY)
    except KeyboardInterrupt:
        return replace(found, cut_short=True)
    return replace(found, confirmed=again)


def teller(watch: Watch | None, began: float) -> Told | None:
    """Return what tells ``watch`` of better solutions, with the time since ``began``."""
    if watch is None:
        return None
    return lambda _, cost, bound: watch(Progress(time.perf_counter() - began, cost, bound))


def session_counts(board: Board) -> list[int]:
    """Return the variables that count sessions."""
    weeks = board.open_weeks()
    return [var for week in weeks for at in PLACES for var in board.sessions(at, week)]


def weekly(board: Board) -> list[list[int]]:
    """Return the choices of each week; what spans weeks is in the group of each of them."""
    groups: list[list[int]] = [[] for _ in board.season.weeks]
    spanning = list(board.arcs.items())
    spanning += [(key[1], var) for key, var in board.steps.items()]
    for arc, var in spanning:
        for week in arc.weeks:
            groups[week].append(var)
    for week in board.open_weeks():
        groups[week] += board.week_choices(week)
    return groups
