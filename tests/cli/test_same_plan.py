"""The same file and seed give the same plan, byte for byte, in two processes."""

import json
import subprocess
import sys

from tests.conftest import SCENARIOS


def plan_bytes(out):
    command = [sys.executable, "-m", "cli", "plan", str(SCENARIOS / "minimal.toml")]
    subprocess.run([*command, "--out", str(out)], check=True, capture_output=True)
    document = json.loads(out.read_text(encoding="utf-8"))
    document["season"]["seconds"] = 0
    return json.dumps(document)


def test_two_processes_write_the_same_plan(tmp_path):
    assert plan_bytes(tmp_path / "a.json") == plan_bytes(tmp_path / "b.json")
