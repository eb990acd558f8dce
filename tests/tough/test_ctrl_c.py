"""Ctrl-C from outside; random moments are tried by ``python -m tests.benchmarks.interrupts``."""

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[2]))
from tests.benchmarks.interrupts import COMMANDS, interrupted


@pytest.mark.parametrize("name", COMMANDS)
def test_ctrl_c_leaves_a_whole_result_or_none(name):
    ended = interrupted(COMMANDS[name][0], wait=2.5)

    assert ended.fault == ""
