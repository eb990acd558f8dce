"""A solution improved beside a search, and handed back to it."""

import threading
from dataclasses import replace

import pytest

from constraints.load import load_rules
from optimiser.board.model import Model
from optimiser.engine.aid import Aid
from optimiser.engine.branch import PATIENCE, Limits, _Turn
from optimiser.solve import Settings, solve_season
from tests.benchmarks.calendars import season


@pytest.mark.parametrize("beside", [True, False])
def test_the_solution_is_improved_once(beside):
    seen = []

    def improve(values, halt):
        seen.append(values)
        return [each + 1 for each in values]

    with Aid(improve, [1, 2], beside=beside) as aid:
        assert aid.result() == [2, 3]
        assert aid.result() == [2, 3]
    assert seen == [[1, 2]]


def test_a_solution_nobody_asks_for_is_not_improved_in_the_callers_own_time():
    seen = []
    with Aid(lambda values, halt: seen.append(values) or values, [1], beside=False):
        pass
    assert not seen


def test_the_end_of_the_search_ends_the_help():
    begun, ended = threading.Event(), threading.Event()

    def improve(values, halt):
        begun.set()
        while not halt():
            pass
        ended.set()
        return values

    with Aid(improve, [1]):
        assert begun.wait(10)
    assert ended.is_set()


class Asked:
    """What the solver hands to a call, and takes from it."""

    def __init__(self, nodes):
        self.mip_node_count = nodes
        self.taken = []

    def setSolution(self, values):  # noqa: N802
        self.taken.append(list(values))


def turn_of(aid):
    model = Model()
    model.flag("dose")
    model.fine.add(model.var(0, 10**6, "short"))
    return _Turn(model, Limits(), None, aid)


def test_the_improved_solution_is_handed_over_once_when_the_tree_has_grown():
    with Aid(lambda values, halt: [1, 2500], [0, 4000], beside=False) as aid:
        turn = turn_of(aid)
        root, few, many, later = Asked(0), Asked(3), Asked(PATIENCE), Asked(2 * PATIENCE)
        for asked in (root, few, many, later):
            turn.asked(asked, asked)
    # costs are counted in thousands
    assert [root.taken, few.taken, many.taken, later.taken] == [[], [], [[1, 2.5]], []]


def test_steps_are_counted_at_the_root_and_nodes_in_the_tree():
    turn = turn_of(None)
    for asked in (Asked(0), Asked(0), Asked(60)):
        turn.asked(asked, asked)
    assert turn.steps == 2


def test_a_search_that_ends_early_is_helped_all_the_same():
    made = season(30, 6, 20, 1)
    hurried = Settings(dose_effort=0.1, polish_effort=2.0, close=0.0)
    helped = solve_season(made, load_rules({}, made), hurried).stages[1]
    without = replace(hurried, polish_effort=0.0)
    alone = solve_season(made, load_rules({}, made), without).stages[1]
    assert helped.objective < alone.objective
    assert helped.bound == alone.bound
