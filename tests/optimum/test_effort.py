"""The solver's work on small seasons stays near what is on record; seconds are never looked at."""

import sys
from importlib.metadata import version
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[2]))
from tests.benchmarks.effort import baseline, spent

#: Share by which work may grow, and what is too little to count.
ROOM = 0.2
LITTLE = 0.002


def test_small_seasons_take_no_more_work_than_recorded_and_a_fifth():
    record = baseline()
    if record["ortools"] != version("ortools"):
        pytest.skip(f"recorded with ortools {record['ortools']}")

    now = spent()

    grown = {
        name: (before, now[name])
        for name, before in record["spent"].items()
        if any(
            after > (1 + ROOM) * old + LITTLE
            for old, after in zip(before, now[name], strict=True)
        )
    }
    assert grown == {}
