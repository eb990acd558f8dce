"""Memory of a cluster's workers."""

import subprocess
import sys

import pytest

from optimiser.batch import memory

LOOP = """
import resource, sys
from optimiser.batch.memory import keep_memory
if sys.argv[1] == "kept":
    assert keep_memory()
for _ in range(40):
    blocks = [b"x" * 60_000 for _ in range(300)]
    del blocks
print(resource.getrusage(resource.RUSAGE_SELF).ru_minflt)
"""


def faults(how):
    """Return the pages a process had to ask for, started as a cluster's worker is."""
    env = {"MALLOC_TRIM_THRESHOLD_": "65536"}
    words = [sys.executable, "-c", LOOP, how]
    done = subprocess.run(words, env=env, capture_output=True, text=True, check=True)
    return int(done.stdout)


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="glibc's malloc")
def test_what_is_freed_is_kept_for_the_next_time():
    assert faults("kept") < faults("given back") / 2


def test_elsewhere_nothing_is_asked_for(monkeypatch):
    monkeypatch.setattr(memory.sys, "platform", "darwin")
    assert not memory.keep_memory()
