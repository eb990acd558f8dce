import sys
from pathlib import Path

import pytest

from optimiser.board.model import Model

# the random seasons of the other proofs serve here too
sys.path.insert(0, str(Path(__file__).parents[1] / "optimum"))


@pytest.fixture
def knapsack():
    """Return a model of eight things, of which enough are to be taken at the least cost."""
    model = Model()
    things = [model.flag(f"thing {number}") for number in range(8)]
    model.at_least({thing: 3 + number for number, thing in enumerate(things)}, 20)
    model.cost = {thing: 5000 + 900 * (number % 3) for number, thing in enumerate(things)}
    return model
