"""Demands of a clash as sentences."""

from collections.abc import Sequence
from itertools import zip_longest

from cli.render.grouping import Said
from optimiser.domain.sentence import Sentence
from optimiser.domain.unit import in_units, unit_of
from optimiser.explain.demand import Demand


def demand_said(demands: Sequence[Demand], alone: Sequence[int | None] = ()) -> list[Said]:
    """Return one sentence a demand.

    A demand that stands for many rows (each block that could be, say) is told by its rule's own
    words and where it starts.

    Parameters
    ----------
    alone
        For each demand by how many of its units it would have to give way if it alone did.
    """
    return [
        Said(demand.rule, _sentence(demand, by), demand.safety)
        for demand, by in zip_longest(demands, alone)
    ]


def _sentence(demand: Demand, by: int | None) -> Sentence:
    if demand.words and demand.key.week is not None:
        says = Sentence("{rule} (starting in {week})", demand.key.week)
        return says.about(rule=demand.words.rstrip("."))
    if by is None or unit_of(demand.unit).whole:
        return demand.says
    return demand.says.then(" (short by {short})", short=in_units(by, demand.unit))
