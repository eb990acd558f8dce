"""Many runs in one process; the whole measurement is ``python -m tests.benchmarks.memory``."""

import sys
from pathlib import Path

import pytest
from short_season import SHORT

sys.path.insert(0, str(Path(__file__).parents[2]))
from tests.benchmarks.memory import measure

#: A leak of what one run holds (plan, board, model) would be several MB a run.
MOST_MB = 6


@pytest.mark.skipif(not Path("/proc/self/statm").exists(), reason="reads its own memory")
def test_runs_in_a_row_leave_nothing_behind(tmp_path):
    scenario = tmp_path / "short.toml"
    scenario.write_text(SHORT)

    growth = measure(scenario, 12)

    assert growth.megabytes < MOST_MB
