"""Ctrl-C from outside; random moments are tried by ``python -m tests.benchmarks.interrupts``."""

import subprocess
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[2]))
from cli import solving
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import Outcome
from tests.benchmarks.interrupts import COMMANDS, interrupted, interrupted_at_the_end

SHORT = 'name = "T"\nfirst_monday = 2026-08-31\nweeks = 6\n[[fixtures]]\ndate = 2026-10-03\n'
#: A search, then Ctrl-C: left to itself, CP-SAT has the system end the program on the spot.
AFTER_A_SEARCH = """
import signal
from ortools.sat.python import cp_model
from optimiser.engine.interrupts import solve
solve(cp_model.CpSolver(), cp_model.CpModel())
try:
    signal.raise_signal(signal.SIGINT)
except KeyboardInterrupt:
    print("heard")
"""


@pytest.mark.parametrize("name", COMMANDS)
def test_ctrl_c_leaves_a_whole_result_or_none(name):
    ended = interrupted(COMMANDS[name], wait=2.5)

    assert ended.fault == ""


def test_ctrl_c_while_a_command_winds_up_says_nothing(tmp_path):
    season = tmp_path / "short.toml"
    season.write_text(SHORT)
    words = f"sweep {season} --grid blocks.longest=5..6 --jobs 2 --format json"
    ended = interrupted_at_the_end(words, after=0.05)

    assert ended.fault == ""
    assert ended.stdout


def test_ctrl_c_after_a_search_is_heard():
    done = subprocess.run([sys.executable, "-c", AFTER_A_SEARCH], capture_output=True, text=True)

    assert (done.returncode, done.stdout) == (0, "heard\n")


def test_nothing_goes_on_from_a_search_that_ctrl_c_ended(
    monkeypatch, minimal, usual_rules, plain_plan
):
    stopped = Outcome("planned", plain_plan(minimal.season), None, 0.1, stopped=True)
    monkeypatch.setattr(solving, "solve_season", lambda *_, **__: stopped)

    assert solving.solve_shown(minimal, usual_rules, Settings()) is stopped
    with pytest.raises(KeyboardInterrupt):
        solving.solve_first(minimal, usual_rules, Settings())
