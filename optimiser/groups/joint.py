"""One model for several groups: blocks, bands and sessions once, doses by group.

A group that comes back has bands of its own, which climb to the shared ones and never pass them.
Weeks that are decided are each group's own: what is shared begins after them.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace

from optimiser.board.board import Board
from optimiser.board.model import Model, Row, Tag, Terms, scaled, total
from optimiser.board.outline import Arc

#: What a path may remember before and after a block.
LAYERS = ((0, 0), (0, 1), (1, 1))
Said = tuple[frozenset[tuple[int, int]], int | None, int | None, int | None]


@dataclass
class Joint:
    """A model and, for every board, what each of its variables is in it.

    Parameters
    ----------
    stands
        One list a board, in order: a linear expression for every variable of that board.
    """

    model: Model
    stands: list[list[Terms]] = field(default_factory=list)

    def values(self, board: int, values: Sequence[int]) -> list[int]:
        """Return the values of one board's variables in a solution of the joint model."""
        return [
            sum(factor * values[var] for var, factor in terms.items())
            for terms in self.stands[board]
        ]

    def places(self, board: int, variables: Sequence[int]) -> list[int]:
        """Return the joint variables that stand for some of one board's."""
        return [var for each in variables for var in self.stands[board][each]]


def join(
    boards: Sequence[Board],
    weights: Sequence[int],
    names: Sequence[str],
    *,
    weigh_costs: bool = True,
    climbing: Collection[int] = (),
    over: int = 0,
    apart: Sequence[Collection[int]] = (),
) -> Joint:
    """Return the joint model of boards; the first one's blocks, bands and sessions count for all.

    Costs are added up, the prices of what gives way too, each times its board's weight.

    Parameters
    ----------
    weigh_costs
        False if costs other than prices count once.
    climbing
        Numbers of the boards with bands of their own, on or below the shared ones.
    over
        Weeks that are decided in all of them.
    apart
        By board the qualities (indices) whose bands were not the first one's in those weeks.
    """
    out = Joint(Model())
    said: set[Said] = set()
    for number, (board, weight, name) in enumerate(zip(boards, weights, names, strict=True)):
        bands, own = number not in climbing, apart[number] if apart else ()
        same = in_common(boards[0], board, bands=bands, over=over, own=own) if out.stands else {}
        graft = _Graft(out.model, board.model, same, said)
        graft.run(weight, weight if weigh_costs else 1, f"{name}: " if len(boards) > 1 else "")
        out.stands.append(graft.stand)
        if bands and own:
            _hold_alike(out, boards[0], board, over, own)
        if number in climbing:
            _hold_below(out, boards[0], board, over)
    return out


def _hold_below(joint: Joint, lead: Board, other: Board, over: int) -> None:
    """Keep the last board's bands on or below those of the first, from week ``over`` on."""
    for week in other.open_weeks():
        if week < over:
            continue
        for index, quality in enumerate(other.season.qualities):
            for rung in range(1, len(quality.bands)):
                own = other.rung_from(index, week, rung)
                if own:
                    here = _standing(joint.stands[-1], own)
                    most = _standing(joint.stands[0], lead.rung_from(index, week, rung))
                    joint.model.at_most(total([here, scaled(most, -1)]), 0)


def _hold_alike(
    joint: Joint, lead: Board, other: Board, over: int, qualities: Collection[int]
) -> None:
    """Give the last board the first one's bands in blocks from week ``over`` on.

    What a path remembers of bands that were apart is each board's own.
    """
    covers = _covers(lead, other, over)
    for quality in qualities:
        for arc, found in covers.items():
            for rung in range(len(other.season.qualities[quality].bands)):
                own = _rung_of(other, quality, [arc], rung)
                here = _standing(joint.stands[-1], own)
                there = _standing(joint.stands[0], _rung_of(lead, quality, found, rung))
                joint.model.equal(total([here, scaled(there, -1)]), 0)


def _rung_of(board: Board, quality: int, arcs: Sequence[Arc], rung: int) -> Terms:
    keys = [(quality, arc, rung, *layer) for arc in arcs for layer in LAYERS]
    return {board.steps[key]: 1 for key in keys if key in board.steps}


def _standing(stands: Sequence[Terms], terms: Terms) -> Terms:
    return total(scaled(stands[var], factor) for var, factor in terms.items())


def in_common(
    lead: Board, other: Board, *, bands: bool = True, over: int = 0, own: Collection[int] = ()
) -> dict[int, Terms]:
    """Return what variables of ``other`` are in those of ``lead``.

    A block of ``other`` at the start of a stretch of open weeks is the rest of whichever block
    ``lead`` is in. Blocks under way when week ``over`` begins end together; the bands in them are
    those each group is on.

    Parameters
    ----------
    bands
        False if ``other`` has bands of its own.
    over
        Weeks that are decided: they are each group's own.
    own
        Qualities whose bands are held alike by rows of the joint model instead.
    """
    same: dict[int, Terms] = {other.one: {lead.one: 1}}
    for week in other.open_weeks():
        for place in ("field", "gym"):
            (var,) = other.sessions(place, week)
            if week >= over:
                same[var] = lead.sessions(place, week)
    covers = _covers(lead, other, over)
    under_way = {
        arc: _ending(lead, arc, over) for arc in other.arcs if arc.start < over <= arc.stop
    }
    for arc, found in (covers | under_way).items():
        same[other.arcs[arc]] = {lead.arcs[each]: 1 for each in found}
    return same | _steps(lead, other, covers, own) if bands else same


def _covers(lead: Board, other: Board, over: int) -> dict[Arc, list[Arc]]:
    """Return by block of ``other`` from week ``over`` on the blocks of ``lead`` that it is."""
    opening = {stretch.start for stretch in other.outline.stretches()}
    return {arc: _covering(lead, arc, opening) for arc in other.arcs if arc.start >= over}


def _ending(lead: Board, arc: Arc, over: int) -> list[Arc]:
    """Return the blocks of ``lead`` under way when week ``over`` begins that end with ``arc``."""
    return [each for each in lead.arcs if each.start < over and each.stop == arc.stop]


def _covering(lead: Board, arc: Arc, opening: set[int]) -> list[Arc]:
    """Return the blocks of ``lead`` whose weeks from ``arc.start`` on are those of ``arc``."""
    starts = range(arc.start + 1) if arc.start in opening else range(arc.start, arc.start + 1)
    found = (Arc(start, arc.stop - start) for start in starts)
    return [each for each in found if each in lead.arcs]


def _steps(
    lead: Board, other: Board, covers: Mapping[Arc, Sequence[Arc]], own: Collection[int]
) -> dict[int, Terms]:
    """Return what the rungs of ``other`` are; where it does not remember, any memory will do."""
    same: dict[int, Terms] = {}
    for (quality, arc, rung, into, out), var in other.steps.items():
        if arc not in covers or quality in own:
            continue
        layers = [(into, out)] if quality in other.outline.memory else LAYERS
        keys = [(quality, found, rung, *layer) for found in covers[arc] for layer in layers]
        same[var] = {lead.steps[key]: 1 for key in keys if key in lead.steps}
    return same


class _Graft:
    """Copies one model into another, with some of its variables replaced by expressions.

    Parameters
    ----------
    said
        Rows without a price that ``model`` already has; those of ``other`` are added.
    """

    def __init__(
        self, model: Model, other: Model, same: Mapping[int, Terms], said: set[Said]
    ) -> None:
        self.model, self.other, self.said = model, other, said
        self._switches: dict[int, int] = {}
        every = range(len(other.lower))
        self.stand = [same[var] if var in same else self._new(var) for var in every]
        for var in sorted(same):
            self._narrow(self.stand[var], other.lower[var], other.upper[var])

    def _new(self, var: int) -> Terms:
        other = self.other
        return {self.model.var(other.lower[var], other.upper[var], other.names[var]): 1}

    def _narrow(self, terms: Terms, low: int, high: int) -> None:
        """Hold an expression to the bounds of what it replaces."""
        model = self.model
        least = sum(min(f * model.lower[v], f * model.upper[v]) for v, f in terms.items())
        most = sum(max(f * model.lower[v], f * model.upper[v]) for v, f in terms.items())
        if least < low:
            model.at_least(terms, low)
        if most > high:
            model.at_most(terms, high)

    def run(self, price_weight: int, cost_weight: int, prefix: str) -> None:
        """Add rows and costs."""
        self.model.charge = self.other.charge
        for var in self.other.fine:
            self.model.fine |= set(self.stand[var])
        for var in self.other.implied:
            self.model.implied |= set(self.stand[var])
        for row in self.other.rows:
            self._row(row, price_weight, prefix)
        self.model.offset += cost_weight * self.other.offset
        for var, cost in self.other.cost.items():
            for into, factor in self.stand[var].items():
                have = self.model.cost.get(into, 0)
                self.model.cost[into] = have + cost_weight * cost * factor

    def _row(self, row: Row, weight: int, prefix: str) -> None:
        if row.when is not None and not self.stand[row.when]:
            return
        when = None if row.when is None else self._switch(row.when)
        terms = total(scaled(self.stand[var], factor) for var, factor in row.terms.items())
        if not terms and (row.low or 0) <= 0 <= (row.high or 0):
            return
        key = (frozenset(terms.items()), row.low, row.high, when)
        free = row.tag is None or row.tag.price is None
        if free and key in self.said:
            return
        if free:
            self.said.add(key)
        tag = None if row.tag is None else _told(row.tag, weight, prefix)
        self.model.rows.append(replace(row, terms=terms, when=when, tag=tag))

    def _switch(self, var: int) -> int:
        """Return one variable for what a row waits for."""
        terms = self.stand[var]
        if list(terms.values()) == [1]:
            return next(iter(terms))
        if var not in self._switches:
            made = self.model.flag(self.other.names[var])
            self.model.equal({**terms, made: -1}, 0)
            self._switches[var] = made
        return self._switches[var]


def _told(tag: Tag, weight: int, prefix: str) -> Tag:
    price = None if tag.price is None else weight * tag.price
    return replace(tag, says=tag.says.about(group=prefix), price=price)
