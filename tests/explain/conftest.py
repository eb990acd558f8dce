from functools import cache

import pytest
from clashing import clashing

from optimiser.explain.clash import Argument, argue
from optimiser.explain.oracle import Clock


@cache
def _argued(name):
    loaded, rules = clashing(name)
    argument = Argument(loaded.season, rules, Clock(120))
    return argument, argue(argument)


@pytest.fixture
def argued():
    """One of the clashing seasons, argued once: the argument and what was found."""
    return _argued
