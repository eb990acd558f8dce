"""A season whose first weeks are history: they stand as they were, whatever rules say of them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from optimiser.board.board import Board
from optimiser.board.model import Model, Row, Tag
from optimiser.board.outline import LONGEST_BLOCK, Arc, Memory, Outline
from optimiser.change.decided import Decided
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.joint_model.solve import make_board
from optimiser.review.audit import Place
from optimiser.rule import Rule

#: Cost of one unit by which history makes a rule give way, far above all that is minimised.
GIVE_WAY = 20_000

#: By row of a board, as it is made the same each time: by how many units it gives way.
GivenWay = Mapping[int, int]
Open = dict[Arc, list[tuple[Tag, int]]]


@dataclass(frozen=True)
class Frozen:
    """A board whose first weeks are decided.

    Parameters
    ----------
    weeks
        How many.
    lost
        Rows that history alone has broken; they are left out, or wider than they were.
    """

    board: Board
    weeks: int
    lost: tuple[Tag, ...]

    def excused(self) -> set[Place]:
        """Return rule, week and quality of breaches that history alone has made."""
        return {(tag.rule, tag.week, tag.quality) for tag in self.lost}


def freeze(
    season: Season, rules: Sequence[Rule], past: Plan, weeks: int, *, give_way: bool = False
) -> Frozen:
    """Return the board of a season of which ``past`` decides the first ``weeks`` weeks.

    A block under way may go on or end. Rows that only speak of decided weeks are left out where
    they are broken, as nothing can mend them.

    Parameters
    ----------
    give_way
        Let rows that bind history to what follows give way at a high cost.
    """
    if not weeks:
        return Frozen(make_board(season, rules), 0, ())
    outline = Outline(season)
    for rule in rules:
        rule.shape(outline)
    reopen(outline, past, weeks, give_way=give_way)
    board = Board(outline)
    for rule in rules:
        rule.post(board)
    return Frozen(board, weeks, settle(board, past, weeks, give_way=give_way))


def board_from(season: Season, rules: Sequence[Rule], decided: Decided | None) -> Board:
    """Return the board of a season, in one that has begun with what is over fixed."""
    if decided is None:
        return make_board(season, rules)
    return freeze(season, rules, decided.past, decided.weeks).board


def settle(board: Board, past: Plan, weeks: int, *, give_way: bool) -> tuple[Tag, ...]:
    """Fix the decided weeks of a board, and return the tags of rows that history has broken."""
    decided = _fix(board, past, weeks)
    lost = _drop_lost(board.model)
    if give_way:
        _soften(board, weeks, decided)
    return lost


def given_way(frozen: Frozen, values: Sequence[int]) -> GivenWay:
    """Return by how many units rows give way to history in a solution of the board."""
    rows = enumerate(frozen.board.model.rows)
    return {
        at: _excess(row, values)
        for at, row in rows
        if row.tag is not None and row.tag.price == GIVE_WAY
    }


def hold_past(frozen: Frozen, by: GivenWay) -> Frozen:
    """Hold rows that may give way to history to what they give, and no further.

    So that what is searched for, and what is proven of it, has nothing to do with that any more.
    """
    model = frozen.board.model
    tags = [model.rows[at].tag for at, excess in by.items() if excess]
    model.rows = [
        _widened(row, by[at] * row.unit) if at in by else row for at, row in enumerate(model.rows)
    ]
    return replace(frozen, lost=(*frozen.lost, *(tag for tag in tags if tag is not None)))


def _widened(row: Row, by: int) -> Row:
    """Return a row that must hold, wider than before."""
    assert row.tag is not None
    low = None if row.low is None else row.low - by
    high = None if row.high is None else row.high + by
    return replace(row, low=low, high=high, tag=replace(row.tag, price=None))


def _excess(row: Row, values: Sequence[int]) -> int:
    """Return by how many units a solution misses a row."""
    if row.when is not None and not values[row.when]:
        return 0
    amount = sum(factor * values[var] for var, factor in row.terms.items())
    over = 0 if row.high is None else amount - row.high
    under = 0 if row.low is None else row.low - amount
    return max(0, -(-max(over, under) // row.unit))


def past_blocks(season: Season, past: Plan, weeks: int) -> list[range]:
    """Return the blocks that start before ``weeks``, split where a band changed inside one.

    The last one ends with the decided weeks, though its block may go on.
    """
    found: list[range] = []
    for week in range(weeks):
        if season.weeks[week].closed:
            continue
        goes_on = bool(found) and found[-1].stop == week and week not in past.starts
        same = goes_on and all(row[week] == row[week - 1] for row in past.rungs)
        start = found.pop().start if same else week
        found.append(range(start, week + 1))
    return found


# --- before variables exist -----------------------------------------------------------------


def reopen(outline: Outline, past: Plan, weeks: int, *, give_way: bool) -> None:
    """Open what was done, and close every other past."""
    for key in [key for key in outline.rungs if key[1] < weeks]:
        del outline.rungs[key]
    blocks = past_blocks(outline.season, past, weeks)
    running = blocks.pop() if blocks and blocks[-1].stop == weeks else None
    done: Open = {Arc(block.start, len(block)): [] for block in blocks}
    ahead = {arc: tags for arc, tags in outline.arcs.items() if arc.start >= weeks}
    going_on: Open = {} if running is None else _going_on(outline, past, running)
    spare = _spare(outline, running, weeks) if give_way else {}
    outline.arcs = {**spare, **done, **going_on, **ahead}
    _forget(outline, past, weeks)


def _going_on(outline: Outline, past: Plan, running: range) -> Open:
    """Return the ways the block under way may go on; if none is open, it ends here."""
    found = {
        arc: tags
        for arc, tags in outline.arcs.items()
        if arc.start == running.start and arc.stop >= running.stop and _held(outline, past, arc)
    }
    return found or {Arc(running.start, len(running)): []}


def _spare(outline: Outline, running: range | None, weeks: int) -> Open:
    """Return blocks that history may need, of any length, at a high cost."""
    tag = Tag("history", weeks, None, price=GIVE_WAY)
    starts = [weeks] if running is None else [running.start, weeks]
    return {
        Arc(start, stop - start): [(tag, 1)]
        for stretch in outline.stretches()
        for start in starts
        if start in stretch
        for stop in range(max(start + 1, weeks), min(start + LONGEST_BLOCK, stretch.stop) + 1)
    }


def _held(outline: Outline, past: Plan, arc: Arc) -> bool:
    """Tell whether every quality may stay on its band to the end of a block."""
    for index, row in enumerate(past.rungs):
        rung = row[arc.start]
        if rung is None or not all(outline.rung_open(index, week, rung) for week in arc.weeks):
            return False
    return True


def _forget(outline: Outline, past: Plan, weeks: int) -> None:
    """Drop what a path should remember where that can no longer be had."""
    for index, memory in list(outline.memory.items()):
        if not _can_qualify(outline, past, index, memory, weeks):
            del outline.memory[index]


def _can_qualify(outline: Outline, past: Plan, index: int, memory: Memory, weeks: int) -> bool:
    for arc in outline.arcs:
        rungs = [past.rungs[index][arc.start]] if arc.start < weeks else [0]
        if any(rung is not None and memory.qualifies(arc, rung) for rung in rungs):
            return True
    return False


# --- after ----------------------------------------------------------------------------------


def _fix(board: Board, past: Plan, weeks: int) -> set[int]:
    """Fix what was done: bands, doses and sessions; return the variables that decides."""
    model = board.model
    open_before = [low != high for low, high in zip(model.lower, model.upper, strict=True)]
    for (quality, arc, rung, _, _), var in board.steps.items():
        if arc.start < weeks and rung != past.rungs[quality][arc.start]:
            model.fix(var, 0)
    board.pin_doses(past, [week for week in board.open_weeks() if week < weeks])
    _follow(model)
    fixed = {
        var
        for var, was_open in enumerate(open_before)
        if was_open and model.lower[var] == model.upper[var]
    }
    return fixed | {var for arc, var in board.arcs.items() if arc.start < weeks}


def _follow(model: Model) -> None:
    """Fix what definitions leave no choice about, so that sums of decided weeks are decided."""
    rows = [row for row in model.rows if row.tag is None and row.when is None]
    rows = [row for row in rows if row.low is not None and row.low == row.high]
    moved = True
    while moved:
        moved = False
        for row in rows:
            free = [var for var in row.terms if model.lower[var] != model.upper[var]]
            if free and _settle(model, row, free):
                moved = True


def _settle(model: Model, row: Row, free: list[int]) -> bool:
    """Fix the free variables of a definition if only one value is left for each."""
    ends = {v: sorted((f * model.lower[v], f * model.upper[v])) for v, f in row.terms.items()}
    rest = (row.low or 0) - sum(ends[var][0] for var in row.terms if var not in free)
    least, most = (sum(ends[var][side] for var in free) for side in (0, 1))
    if len(free) == 1 and rest % row.terms[free[0]] == 0:
        model.fix(free[0], rest // row.terms[free[0]])
        return True
    if rest not in (least, most):
        return False
    for var in free:
        model.fix(var, ends[var][0 if rest == least else 1] // row.terms[var])
    return True


def _drop_lost(model: Model) -> tuple[Tag, ...]:
    """Leave out the rows that decided values alone have broken, and return their tags."""
    lost = [row for row in model.rows if row.tag is not None and _is_lost(model, row)]
    gone = set(map(id, lost))
    model.rows = [row for row in model.rows if id(row) not in gone]
    return tuple(dict.fromkeys(row.tag for row in lost if row.tag is not None))


def _is_lost(model: Model, row: Row) -> bool:
    """Tell whether a row cannot be kept: whatever is open, or with nothing open in it."""
    return _broken(model, row) if row.when is None else _decided(model, row)


def _broken(model: Model, row: Row) -> bool:
    """Tell whether no values left open can keep a row."""
    ends = [(f * model.lower[v], f * model.upper[v]) for v, f in row.terms.items()]
    least, most = sum(map(min, ends)), sum(map(max, ends))
    return (row.high is not None and least > row.high) or (row.low is not None and most < row.low)


def _decided(model: Model, row: Row) -> bool:
    """Tell whether a row with a condition is broken by decided values alone."""
    free = any(model.lower[var] != model.upper[var] for var in row.terms)
    return not free and _broken(model, row)


def _soften(board: Board, weeks: int, decided: set[int]) -> None:
    """Price the rows that speak of decided weeks."""
    model = board.model
    model.rows = [
        replace(row, tag=replace(row.tag, price=GIVE_WAY))
        if row.tag is not None and row.tag.price is None and _touched(row, row.tag, weeks, decided)
        else row
        for row in model.rows
    ]


def _touched(row: Row, tag: Tag, weeks: int, decided: set[int]) -> bool:
    early = tag.week is not None and tag.week < weeks
    return early or row.when in decided or not decided.isdisjoint(row.terms)
