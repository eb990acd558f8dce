"""What it costs to let a demand give way: the order in which repairs are offered.

Engineering choices, in tenths of a minute of training given up, as are those of units. They only
rank repairs: a coach sees the sizes and decides. What keeps people safe costs ten times as much.
"""

from optimiser.domain.unit import unit_of
from optimiser.explain.demand import Demand, Key

#: Cost of touching one place, and of touching one kind of limit at all: few changes beat many.
PLACE, KIND = 100, 400
#: How much more it costs to give up what keeps people safe.
SAFETY = 10

Kind = tuple[str, str]


def kind_of(key: Key) -> Kind:
    """Return the kind of limit a demand belongs to: its rule and part."""
    return key.rule, key.part


def unit_cost(demand: Demand) -> int:
    """Return what one unit of giving way costs."""
    return unit_of(demand.unit).cost * _care(demand)


def place_cost(demand: Demand) -> int:
    """Return what it costs to give way in this place at all."""
    return PLACE * _care(demand)


def kind_cost(demand: Demand) -> int:
    """Return what it costs to touch a demand's kind of limit at all."""
    return KIND * _care(demand)


def _care(demand: Demand) -> int:
    return SAFETY if demand.safety else 1
