"""Many runs in one process; the whole measurement is ``python -m tests.benchmarks.memory``."""

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[2]))
from tests.benchmarks.memory import measure

SHORT = 'name = "T"\nfirst_monday = 2026-08-31\nweeks = 4\n[[fixtures]]\ndate = 2026-09-26\n'
#: A leak of what one run holds (plan, board, model) would be several MB a run.
MOST_MB = 6


@pytest.mark.skipif(not Path("/proc/self/statm").exists(), reason="reads its own memory")
def test_runs_in_a_row_leave_nothing_behind(tmp_path):
    scenario = tmp_path / "short.toml"
    scenario.write_text(SHORT)

    growth = measure(scenario, 12)

    assert growth.megabytes < MOST_MB
