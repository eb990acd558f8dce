"""A search that is over leaves nothing behind in memory."""

import gc
import weakref

from optimiser.board.model import Model
from optimiser.engine.large_neighbourhood_search import Neighbourhoods


def test_neighbourhoods_are_let_go_of():
    model = Model()
    things = [model.flag(f"thing {number}") for number in range(4)]
    model.at_least(dict.fromkeys(things, 1), 2)
    model.cost = {thing: 1000 + thing for thing in things}
    near = Neighbourhoods(model, [things])
    near.relaxed()
    kept = weakref.ref(near)

    del near
    gc.collect()

    assert kept() is None
