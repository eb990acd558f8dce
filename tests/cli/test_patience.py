"""Ctrl-C while the program loads what it needs."""

import signal
import subprocess
import sys

import pytest

from cli import patience
from tests.conftest import SCENARIOS

#: Presses Ctrl-C in the Nth call of a function of that name, then lets the program go on.
PRESSED = """
import os, signal, sys
signal.signal(signal.SIGINT, signal.default_int_handler)
name, left = sys.argv[1], int(sys.argv[2])

def look(frame, event, _):
    global left
    if event == "call" and frame.f_code.co_name == name:
        left -= 1
        if not left:
            sys.setprofile(None)
            os.kill(os.getpid(), signal.SIGINT)

from cli.__main__ import run
sys.argv = ["seasonwright", *sys.argv[3:]]
sys.setprofile(look)
run()
"""
# Python forgets and prints what is raised in the first, which it calls after every import
WHERE = [("cb", 5), ("cb", 300), ("exec_module", 10), ("exec_module", 200), ("load_scenario", 1)]


@pytest.mark.parametrize(("name", "call"), WHERE)
def test_a_program_that_is_stopped_while_it_loads_says_so_and_nothing_else(tmp_path, name, call):
    words = [name, str(call), "plan", str(SCENARIOS / "minimal.toml"), "--out", "plan.json"]

    done = subprocess.run(
        [sys.executable, "-c", PRESSED, *words], cwd=tmp_path, capture_output=True, text=True
    )

    assert (done.returncode, done.stdout, done.stderr.strip()) == (130, "", "Stopped.")
    assert not list(tmp_path.iterdir())


def test_ctrl_c_that_is_ignored_stays_ignored():
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        assert not patience.hear_between_imports()
        assert signal.getsignal(signal.SIGINT) is signal.SIG_IGN
    finally:
        signal.signal(signal.SIGINT, before)
