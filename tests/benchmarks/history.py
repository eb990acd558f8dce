"""Keep what benchmarks found, one line of JSON a run."""

import datetime as dt
import json
import os
import platform
from importlib.metadata import version
from pathlib import Path
from typing import Any

HISTORY = Path(__file__).parent / "history.jsonl"


def keep(results: dict[str, Any], path: Path = HISTORY) -> None:
    """Add one run, with what it ran on."""
    entry = {
        "when": dt.datetime.now(dt.UTC).isoformat(timespec="seconds"),
        "machine": f"{platform.machine()}, {os.cpu_count()} cores",
        "python": platform.python_version(),
        "ortools": version("ortools"),
        "highspy": version("highspy"),
        **results,
    }
    with path.open("a", encoding="utf-8") as file:
        file.write(json.dumps(entry) + "\n")
