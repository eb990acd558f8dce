"""The solver's work on small seasons stays near what is on record; seconds are never looked at."""

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[2]))
from tests.benchmarks.effort import baseline, spent, versions

#: Share by which work may grow, and what is too little to count.
ROOM = 0.2
LITTLE = 0.002


def test_small_seasons_take_no_more_work_than_recorded_and_a_fifth():
    record = baseline()
    here = versions()
    if any(record[name] != number for name, number in here.items()):
        pytest.skip(f"recorded with other solvers than {here}")

    now = spent()

    grown = {
        name: (before, now[name])
        for name, before in record["spent"].items()
        if any(
            after > (1 + ROOM) * old + LITTLE for old, after in zip(before, now[name], strict=True)
        )
    }
    assert grown == {}
